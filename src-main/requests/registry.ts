/** Every request the window may make: its arguments' check and the service it goes to. Both shells use this one. */
import { z } from 'zod'
import type { Host, HostVerb } from '../../src-core/bridge/contract.ts'
import { BOOK_REQUESTS } from './bookRequests.ts'
import { fileRef, name, nothing, stamp } from './shapes.ts'
import { FILE_LIMIT } from '../services/readPlainFile.ts'
import type { HostServices } from '../services/hostServices.ts'

/** What is checked before a service sees it; `run` gets exactly what the check let through. */
export interface Request<V extends HostVerb> {
  readonly args: z.ZodType<Parameters<Host[V]>>
  readonly run: (services: HostServices, args: Parameters<Host[V]>) => ReturnType<HostServices[V]>
}

const bytes = z.custom<Uint8Array>(
  (value) => value instanceof Uint8Array && value.length > 0 && value.length <= FILE_LIMIT,
  'must be bytes, not empty and not too large',
)

export const REQUESTS: { readonly [V in HostVerb]: Request<V> } = {
  info: { args: nothing, run: (s) => s.info() },
  listExamples: { args: nothing, run: (s) => s.listExamples() },
  readExample: { args: z.tuple([name]), run: (s, args) => s.readExample(...args) },
  chooseOpen: { args: nothing, run: (s) => s.chooseOpen() },
  chooseSave: { args: z.tuple([name]), run: (s, args) => s.chooseSave(...args) },
  ...BOOK_REQUESTS,
  readJob: { args: z.tuple([fileRef]), run: (s, args) => s.readJob(...args) },
  writeJob: {
    args: z.tuple([fileRef, z.string().max(FILE_LIMIT), stamp]),
    run: (s, args) => s.writeJob(...args),
  },
  exportFile: {
    args: z.tuple([name, z.enum(['svg', 'pdf', 'dxf', 'png', 'json']), bytes]),
    run: (s, args) => s.exportFile(...args),
  },
  exportPicture: {
    args: z.tuple([name, z.string().min(1).max(FILE_LIMIT)]),
    run: (s, args) => s.exportPicture(...args),
  },
}

export const isVerb = (text: string): text is HostVerb => Object.hasOwn(REQUESTS, text)
