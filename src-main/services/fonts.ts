/** The typefaces that sheets are set in, from the package that carries them. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

export interface SheetFonts {
  readonly regular: Uint8Array
  readonly bold: Uint8Array
}

/** DejaVu Sans, regular and bold, as TrueType bytes. */
export async function loadFonts(): Promise<SheetFonts> {
  const folder = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf')
  const [regular, bold] = await Promise.all([
    readFile(join(folder, 'DejaVuSans.ttf')),
    readFile(join(folder, 'DejaVuSans-Bold.ttf')),
  ])
  return { regular, bold }
}
