/** Bounds of one picture. */
export const PICTURE_LIMITS = {
  /** Bytes; base64 takes a third more. */
  bytes: 4 * 1024 * 1024,
  /** Pixels, either way. */
  pixels: 12_000,
  /** Pixels in all: unpacked they take four bytes each, however few the file has. */
  area: 40_000_000,
} as const
