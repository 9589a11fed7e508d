/** The job book's requests: their arguments' checks and the services they go to. */
import { z } from 'zod'
import type { BookHost } from '../../src-core/bridge/bookContract.ts'
import { PROGRESS_LIMIT } from '../services/progress.ts'
import { FILE_LIMIT } from '../services/readPlainFile.ts'
import type { Request } from './registry.ts'
import { fileRef, name, nothing, stamp } from './shapes.ts'

const draftId = z.string().regex(/^[A-Za-z0-9-]{1,60}$/)
const progressKey = z.string().regex(/^[0-9a-f]{8,64}$/)
const text = z.string().max(FILE_LIMIT)
const draft = z.strictObject({ id: draftId, name, file: fileRef.nullable(), stamp, text })
const settings = z.strictObject({
  theme: z.enum(['system', 'light', 'dark']),
  person: z.string().max(200),
  owner: z.string().max(200),
  units: z.enum(['mm', 'in']).optional(),
})

export const BOOK_REQUESTS: { readonly [V in keyof BookHost]: Request<V> } = {
  listBook: { args: nothing, run: (s) => s.listBook() },
  bookNews: { args: z.tuple([z.int().min(0)]), run: (s, args) => s.bookNews(...args) },
  bookFile: { args: z.tuple([name]), run: (s, args) => s.bookFile(...args) },
  freeBookFile: { args: z.tuple([name]), run: (s, args) => s.freeBookFile(...args) },
  chooseBookFolder: { args: nothing, run: (s) => s.chooseBookFolder() },
  readSettings: { args: nothing, run: (s) => s.readSettings() },
  writeSettings: { args: z.tuple([settings]), run: (s, args) => s.writeSettings(...args) },
  listRecent: { args: nothing, run: (s) => s.listRecent() },
  clearRecent: { args: nothing, run: (s) => s.clearRecent() },
  listRevisions: { args: z.tuple([fileRef]), run: (s, args) => s.listRevisions(...args) },
  readRevision: { args: z.tuple([fileRef, z.string().max(100)]), run: (s, args) => s.readRevision(...args) },
  fileState: { args: z.tuple([fileRef]), run: (s, args) => s.fileState(...args) },
  keepDraft: { args: z.tuple([draft]), run: (s, args) => s.keepDraft(...args) },
  dropDraft: { args: z.tuple([draftId]), run: (s, args) => s.dropDraft(...args) },
  readDraft: { args: z.tuple([draftId]), run: (s, args) => s.readDraft(...args) },
  listDrafts: { args: nothing, run: (s) => s.listDrafts() },
  readProgress: { args: z.tuple([progressKey]), run: (s, args) => s.readProgress(...args) },
  keepProgress: {
    args: z.tuple([progressKey, z.string().max(PROGRESS_LIMIT)]),
    run: (s, args) => s.keepProgress(...args),
  },
  dropProgress: { args: z.tuple([progressKey]), run: (s, args) => s.dropProgress(...args) },
  readLibrary: { args: nothing, run: (s) => s.readLibrary() },
  writeLibrary: { args: z.tuple([text, stamp]), run: (s, args) => s.writeLibrary(...args) },
  showLog: { args: nothing, run: (s) => s.showLog() },
}
