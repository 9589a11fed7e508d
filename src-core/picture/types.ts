/** What the first bytes of a picture say of it, once its whole frame has been walked through. */
export interface PictureHeader {
  readonly ok: true
  readonly type: 'image/png' | 'image/jpeg'
  /** Pixels as stored, before the orientation is applied. */
  readonly width: number
  readonly height: number
  /** As Exif's tag 0x0112: 1 upright, 2 to 8 turned or mirrored. */
  readonly orientation: number
}

export interface PictureRefusal {
  readonly ok: false
  readonly reason: string
  /** Byte at which it went wrong. */
  readonly at: number
}

export type PictureReading = PictureHeader | PictureRefusal

export const refusePicture = (at: number, reason: string): PictureRefusal => ({ ok: false, reason, at })
