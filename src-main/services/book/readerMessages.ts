/** What the book's reader is asked and answers; plain data between threads. */
import type { Known } from './readSummary.ts'

export type Order =
  | { readonly kind: 'names'; readonly folder: string }
  /** Size and time of each file, in order. */
  | { readonly kind: 'look'; readonly folder: string; readonly names: readonly string[] }
  /** What each file holds, in order. */
  | { readonly kind: 'read'; readonly folder: string; readonly names: readonly string[] }

export interface Names {
  readonly kind: 'names'
  readonly names: readonly string[]
  /** Shown forms of names that are not text, and so cannot be opened. */
  readonly odd: readonly string[]
  /** The disk's number. */
  readonly disk: number
  readonly readOnly: boolean
}

export interface Look {
  readonly size: number
  readonly time: number
  readonly readOnly: boolean
}

/** About one file, in the order in which they were asked for. */
export type FileAnswer =
  /** Null: it is gone, or no plain file. */
  | { readonly kind: 'look'; readonly name: string; readonly look: Look | null }
  /** Null: it is a file of another kind. Not sure: it could not be read and may be readable next time. */
  | { readonly kind: 'read'; readonly name: string; readonly known: Known | null; readonly isSure: boolean }
  | { readonly kind: 'failed'; readonly name: string; readonly code: string }

export type Answer =
  | { readonly kind: 'ready' }
  /** A part of a large file has come: the drive is slow, not lost. */
  | { readonly kind: 'part' }
  | Names
  /** The folder could not be read. */
  | { readonly kind: 'failedFolder'; readonly code: string }
  | FileAnswer
