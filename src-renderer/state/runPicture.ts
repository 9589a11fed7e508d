/** A photograph of a run: drawn anew upright and small enough that a job stays light to share. */
import type { Picture } from '../../src-core/job/schema.ts'
import { base64OfBytes } from '../../src-core/picture/base64.ts'
import { readPictureHeader } from '../../src-core/picture/header.ts'
import type { PictureWork } from './pictureWork.ts'

/** Pixels a side, and bytes. */
const SIDE = 1600
const BYTES = 600_000
const FILE_LIMIT = 64 * 1024 * 1024

export type RunPicture =
  { readonly ok: true; readonly picture: Picture } | { readonly ok: false; readonly reason: string }

export async function runPicture(file: File, work: PictureWork): Promise<RunPicture> {
  const refused = (reason: string): RunPicture => ({
    ok: false,
    reason: `${file.name} was not taken: ${reason}`,
  })
  if (file.size > FILE_LIMIT) return refused(`it is larger than ${FILE_LIMIT / 1024 / 1024} MB.`)
  const bytes = new Uint8Array(await file.arrayBuffer())
  const header = readPictureHeader(bytes)
  if (!header.ok) return refused(`${header.reason} (byte ${header.at}). A PNG or JPEG is wanted.`)
  const small = await work.shrink(bytes, header.type, SIDE, BYTES)
  if (!small.ok) return refused(`${small.reason}.`)
  return {
    ok: true,
    picture: {
      name: file.name,
      type: 'image/jpeg',
      width: small.width,
      height: small.height,
      data: base64OfBytes(small.bytes),
    },
  }
}
