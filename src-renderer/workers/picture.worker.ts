/** Unpacks, shrinks and squares up pictures off the window's thread. */
import { clause } from '../../src-core/words/clause.ts'
import type { Picture } from '../../src-core/job/schema.ts'
import { bytesOfBase64 } from '../../src-core/picture/base64.ts'
import { planMap, type Ties } from '../../src-core/picture/planMap.ts'
import { sheetFor, warpPixels } from '../../src-core/picture/warp.ts'
import type { PictureReply, PictureRequest, Shrunk, Unpacked } from './pictureMessages.ts'

/** Pixels a side of what is shown: finer than any window. */
const SHOWN_SIDE = 3000
const QUALITIES = [0.9, 0.8, 0.65] as const

const post = (reply: PictureReply, moved: Transferable[] = []) => postMessage(reply, { transfer: moved })

addEventListener('message', ({ data }: MessageEvent<PictureRequest>) => {
  void answer(data)
})

async function answer(asked: PictureRequest): Promise<void> {
  const { id } = asked
  if (asked.kind === 'shrink') {
    const result = await shrink(asked).catch(failed)
    post({ kind: 'shrink', id, result }, result.ok ? [result.bytes.buffer] : [])
  } else {
    const result = await show(asked.picture, asked.ties).catch(failed)
    post({ kind: 'show', id, result }, result.ok ? [result.image] : [])
  }
}

const failed = (error: unknown) => ({ ok: false as const, reason: clause((error as Error).message) })

/** The picture upright, as its own orientation says. */
const unpack = (bytes: Uint8Array<ArrayBuffer>, type: string) =>
  createImageBitmap(new Blob([bytes], { type }), { imageOrientation: 'from-image' })

/** Drawn on a canvas of its own, no larger than `side` either way. */
function drawn(image: ImageBitmap, side: number) {
  const scale = Math.min(1, side / Math.max(image.width, image.height))
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(image.width * scale)),
    Math.max(1, Math.round(image.height * scale)),
  )
  const context = canvas.getContext('2d')
  if (!context) throw new Error('there is no memory for it')
  context.imageSmoothingQuality = 'high'
  return { canvas, context }
}

async function shrink(asked: Extract<PictureRequest, { kind: 'shrink' }>): Promise<Shrunk> {
  const image = await unpack(asked.bytes, asked.type)
  for (let { side } = asked; side >= 200; side = Math.round(side * 0.7)) {
    const { canvas, context } = drawn(image, side)
    // A JPEG has no clear places; what is clear becomes white.
    context.fillStyle = '#fff'
    context.fillRect(0, 0, canvas.width, canvas.height)
    context.drawImage(image, 0, 0, canvas.width, canvas.height)
    for (const quality of QUALITIES) {
      const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality })
      if (blob.size > asked.limit) continue
      image.close()
      const bytes = new Uint8Array(await blob.arrayBuffer())
      return { ok: true, bytes, width: canvas.width, height: canvas.height }
    }
  }
  return { ok: false, reason: 'it does not become small enough' }
}

async function show({ data, type, width, height }: Picture, ties: Ties | null): Promise<Unpacked> {
  const bytes = bytesOfBase64(data)
  if (!bytes) return { ok: false, reason: 'it is not base64' }
  const image = await unpack(bytes, type)
  if (image.width !== width || image.height !== height)
    return { ok: false, reason: `it is ${image.width} × ${image.height} pixels once unpacked` }
  const { canvas, context } = drawn(image, SHOWN_SIDE)
  context.drawImage(image, 0, 0, canvas.width, canvas.height)
  image.close()
  const scale = width / canvas.width
  if (!ties) return { ok: true, image: canvas.transferToImageBitmap(), scale, sheet: null }
  const scaled = ties.map((t) => ({ ...t, u: t.u / scale, v: t.v / scale })) as unknown as Ties
  const made = planMap(scaled)
  if (!made.ok) return { ok: false, reason: `its ties ${made.reason}` }
  const sheet = sheetFor(made.map, canvas.width, canvas.height, SHOWN_SIDE)
  if (!sheet) return { ok: false, reason: 'none of it shows the plane of its corners' }
  const warped = warpPixels(context.getImageData(0, 0, canvas.width, canvas.height), made.map, sheet)
  const out = new OffscreenCanvas(sheet.width, sheet.height)
  out.getContext('2d')?.putImageData(new ImageData(warped.data, sheet.width, sheet.height), 0, 0)
  return { ok: true, image: out.transferToImageBitmap(), scale: 1, sheet }
}
