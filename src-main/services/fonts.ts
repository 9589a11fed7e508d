/** The typefaces that sheets are set in, from the package that carries them. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join, sep } from 'node:path'

export interface SheetFonts {
  readonly regular: Uint8Array
  readonly bold: Uint8Array
}

/**
 * Where a file of a packaged program lies as a plain file. Machine code cannot look into the archive; what it reads is
 * unpacked beside it, and in an unpackaged program the path stays as it is.
 */
export const asPlainFile = (path: string): string => path.replace(`app.asar${sep}`, `app.asar.unpacked${sep}`)

/** Paths of DejaVu Sans, regular and bold. */
export function fontFiles(): [regular: string, bold: string] {
  const place = dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json'))
  const folder = asPlainFile(join(place, 'ttf'))
  return [join(folder, 'DejaVuSans.ttf'), join(folder, 'DejaVuSans-Bold.ttf')]
}

/** DejaVu Sans, regular and bold, as TrueType bytes. */
export async function loadFonts(): Promise<SheetFonts> {
  const [regular, bold] = await Promise.all(fontFiles().map((path) => readFile(path)))
  return { regular: regular!, bold: bold! }
}
