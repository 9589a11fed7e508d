/**
 * What the window asks of its host beyond single files: the job book, its shop library, drafts, revisions, settings.
 * Types only, plain data; faults come back as values.
 */
import type { FileRef, Reply } from './reply.ts'

/** What the list of the job book shows and searches of one job; made by `src-core/book/summary.ts`. */
export interface JobSummary {
  readonly title: string
  readonly partNumber: string
  readonly partName: string
  readonly material: string
  readonly machine: string
  readonly plate: string
  readonly notes: string
  /** With the check sums that stand on their sheets. */
  readonly setups: readonly { readonly id: string; readonly title: string; readonly checkSum: string }[]
  readonly lastRun: { readonly date: string; readonly setup: string; readonly speed: number | null } | null
  /** A small drawing of the first setup, seen from the tailstock, in a box of 100 by 100, y down. */
  readonly picture: readonly {
    readonly path: string
    readonly role: 'plate' | 'slot' | 'part' | 'piece' | 'weight'
  }[]
}

export interface BookEntry {
  readonly file: FileRef
  /** ISO date and time of the file; empty while it was not looked at. */
  readonly modified: string
  /**
   * Null where the file is not a job that this program can read; `fault` then says why. Both where it could be read
   * before and not now.
   */
  readonly summary: JobSummary | null
  readonly fault: string | null
  /** Still to be read: there is neither summary nor fault yet. */
  readonly waiting: boolean
  /** It is not known to be damaged: opening it may work though the list knows nothing of it yet. */
  readonly mayOpen: boolean
  readonly readOnly: boolean
  /** Name of the job that this file is a copy of, left by a folder that syncs; null for an ordinary job. */
  readonly conflictOf: string | null
}

export interface BookListing {
  readonly folder: string
  /** Newest first. */
  readonly entries: readonly BookEntry[]
  /** Ids of files that are in the list no more. */
  readonly gone: readonly string[]
  /** Names what was told so far. */
  readonly mark: number
  /** Jobs that are still to be read. */
  readonly waiting: number
  /** Nothing may be put into the folder. */
  readonly readOnly: boolean
}

export interface Revision {
  readonly id: string
  /** ISO date and time at which it was replaced by a newer one. */
  readonly saved: string
}

/** Unsaved work, kept beside the settings so that a crash loses at most seconds. */
export interface Draft {
  /** One for each window's document; made by the window, letters and digits. */
  readonly id: string
  readonly name: string
  /** The file it was opened from, and that file's stamp then. */
  readonly file: FileRef | null
  readonly stamp: string | null
  readonly text: string
}

/** A draft without its text, which may be large. */
export interface KeptDraft extends Omit<Draft, 'text'> {
  /** ISO date and time. */
  readonly kept: string
}

export interface Settings {
  readonly theme: 'system' | 'light' | 'dark'
  /** Who records runs and draws sheets, to fill in such fields. */
  readonly person: string
  readonly owner: string
  /** Of the window, whatever job is in it; left out: each job's own. */
  readonly units?: 'mm' | 'in' | undefined
}

export interface SettingsReply {
  readonly settings: Settings
  readonly bookFolder: string
  /** Where damaged settings were set aside at this start; null where they were sound. */
  readonly setAside: string | null
}

export interface BookHost {
  /** As far as it is known at once; the rest is read meanwhile and told by `bookNews`. */
  listBook(): Promise<Reply<BookListing>>
  /** Entries that changed since a mark of before. */
  bookNews(mark: number): Promise<Reply<BookListing>>
  /** A reference to a plain job name in the book; it need not exist. */
  bookFile(name: string): Promise<Reply<FileRef>>
  /** The same, with a number added until the name is free. */
  freeBookFile(name: string): Promise<Reply<FileRef>>
  /** System dialog for the book's place; null when cancelled. Refused where there are no system dialogs. */
  chooseBookFolder(): Promise<Reply<SettingsReply | null>>
  readSettings(): Promise<Reply<SettingsReply>>
  writeSettings(settings: Settings): Promise<Reply<SettingsReply>>
  /** Newest first; files that are gone are left out. */
  listRecent(): Promise<Reply<readonly FileRef[]>>
  clearRecent(): Promise<Reply<null>>
  /** Newest first. */
  listRevisions(file: FileRef): Promise<Reply<readonly Revision[]>>
  readRevision(file: FileRef, id: string): Promise<Reply<string>>
  /** What the file holds by now, to notice a stranger's change; `stamp` null where it is gone. */
  fileState(file: FileRef): Promise<Reply<{ readonly stamp: string | null; readonly readOnly: boolean }>>
  keepDraft(draft: Draft): Promise<Reply<null>>
  dropDraft(id: string): Promise<Reply<null>>
  /** Drafts that no other program has in hand, newest first; a window leaves out what its sibling windows hold. */
  listDrafts(): Promise<Reply<readonly KeptDraft[]>>
  readDraft(id: string): Promise<Reply<string>>
  /** How far a setup has come at the machine, kept by a key that the window makes of it; null where nothing is. */
  readProgress(key: string): Promise<Reply<string | null>>
  keepProgress(key: string, text: string): Promise<Reply<null>>
  dropProgress(key: string): Promise<Reply<null>>
  /** The shop library's text, null where there is none yet. Kept in the book's folder, so that it is shared. */
  readLibrary(): Promise<Reply<{ readonly text: string | null; readonly stamp: string | null }>>
  writeLibrary(text: string, expectedStamp: string | null): Promise<Reply<{ readonly stamp: string }>>
  /** Opens the folder that holds the log in the system's file manager; refused without a desktop. */
  showLog(): Promise<Reply<null>>
}

/** What the host tells the window by itself: a menu's command, a file that the system was asked to open. */
export type ShellEvent =
  { readonly kind: 'command'; readonly name: string } | { readonly kind: 'open'; readonly file: FileRef }

/** What only the window's side of the bridge has; no request of the host. */
export interface Shell {
  /** Gives the function that ends it. */
  subscribe(listener: (event: ShellEvent) => void): () => void
  /** A reference to a file dropped onto the window (a DOM `File`); null where the shell has no paths. */
  adoptDropped(file: object): Promise<Reply<FileRef | null>>
}
