/** Names of all requests, for the two bridges that pass them on. */
import type { HostVerb } from './contract.ts'

const NAMES: { readonly [V in HostVerb]: true } = {
  info: true,
  listExamples: true,
  readExample: true,
  chooseOpen: true,
  chooseSave: true,
  readJob: true,
  writeJob: true,
  exportFile: true,
  exportPicture: true,
  listBook: true,
  bookNews: true,
  bookFile: true,
  freeBookFile: true,
  chooseBookFolder: true,
  readSettings: true,
  writeSettings: true,
  listRecent: true,
  clearRecent: true,
  listRevisions: true,
  readRevision: true,
  fileState: true,
  keepDraft: true,
  dropDraft: true,
  listDrafts: true,
  readDraft: true,
  readProgress: true,
  keepProgress: true,
  dropProgress: true,
  readLibrary: true,
  writeLibrary: true,
  showLog: true,
}

export const VERBS = Object.keys(NAMES) as HostVerb[]
