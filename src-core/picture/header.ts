/** The door for a picture: its kind and size, from bytes that anyone may have made. */
import { PICTURE_LIMITS } from './limits.ts'
import { isJpeg, readJpeg } from './jpeg.ts'
import { isPng, readPng } from './png.ts'
import { refusePicture, type PictureHeader, type PictureReading } from './types.ts'

/**
 * Kind and size of a PNG or JPEG, or why it is refused and at which byte. One pass over the file's own frame; nothing
 * is unpacked or copied, whatever sizes it claims.
 */
export function readPictureHeader(bytes: Uint8Array): PictureReading {
  const read = isPng(bytes)
    ? readPng(bytes)
    : isJpeg(bytes)
      ? readJpeg(bytes)
      : refusePicture(0, 'it is neither a PNG nor a JPEG')
  if (!read.ok) return read
  const { width, height } = read
  if (width < 1 || height < 1) return refusePicture(0, `its size of ${width} × ${height} pixels is none`)
  const most = PICTURE_LIMITS.pixels
  if (width > most || height > most)
    return refusePicture(0, `it is ${width} × ${height} pixels; at most ${most} either way are taken`)
  return read
}

/** Pixels across and down as the picture is shown: orientations 5 to 8 lay it on its side. */
export const uprightSize = ({ width, height, orientation }: PictureHeader) =>
  orientation >= 5 ? { width: height, height: width } : { width, height }
