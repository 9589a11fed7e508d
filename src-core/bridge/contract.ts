/**
 * The one typed interface between the window and what stands behind it: the preload gives it in the desktop app,
 * the loopback host in a browser. Types only. Every reply is plain data; faults come back as values.
 */

import type { BookHost } from './bookContract.ts'
import type { FileRef, Reply } from './reply.ts'

export interface HostInfo {
  readonly version: string
  readonly shell: 'desktop' | 'browser'
  /** False: the window shows its own list of the host's job folder instead of the system's dialogs. */
  readonly systemDialogs: boolean
  /** Of what the program runs on, as far as there is one. */
  readonly versions: { readonly electron?: string; readonly chromium?: string; readonly node?: string }
}

export interface OpenedFile {
  readonly file: FileRef
  readonly text: string
  /** Identifies the file's content on disk, to notice a change by someone else before overwriting. */
  readonly stamp: string
}

export interface SavedFile {
  readonly file: FileRef
  readonly stamp: string
}

export type ExportFormat = 'svg' | 'pdf' | 'dxf' | 'png' | 'json'

export interface Host extends BookHost {
  info(): Promise<Reply<HostInfo>>
  /** Names of the bundled example jobs. */
  listExamples(): Promise<Reply<readonly string[]>>
  /** Text of a bundled example; it has no file, so saving asks where. */
  readExample(name: string): Promise<Reply<string>>
  /** System dialog; null when cancelled. Refused where `systemDialogs` is false. */
  chooseOpen(): Promise<Reply<FileRef | null>>
  chooseSave(suggestedName: string): Promise<Reply<FileRef | null>>
  readJob(file: FileRef): Promise<Reply<OpenedFile>>
  /** Atomic. `expectedStamp` null: overwrite knowingly; an empty text: only where there is no such file yet. */
  writeJob(file: FileRef, text: string, expectedStamp: string | null): Promise<Reply<SavedFile>>
  /** Writes bytes beside nothing: asks where (system dialog) or puts them in the job folder's `sheets`. */
  exportFile(suggestedName: string, format: ExportFormat, bytes: Uint8Array): Promise<Reply<FileRef | null>>
  /** A sheet's SVG painted as PNG, with the sheet's own fonts, and put where `exportFile` puts things. */
  exportPicture(suggestedName: string, svg: string): Promise<Reply<FileRef | null>>
}

export type HostVerb = keyof Host
