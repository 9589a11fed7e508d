/** The typefaces that sheets are set in, from the package that carries them. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

export interface SheetFonts {
  readonly regular: Uint8Array
  readonly bold: Uint8Array
}

/** Paths of DejaVu Sans, regular and bold. */
export function fontFiles(): [regular: string, bold: string] {
  const folder = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf')
  return [join(folder, 'DejaVuSans.ttf'), join(folder, 'DejaVuSans-Bold.ttf')]
}

/** DejaVu Sans, regular and bold, as TrueType bytes. */
export async function loadFonts(): Promise<SheetFonts> {
  const [regular, bold] = await Promise.all(fontFiles().map((path) => readFile(path)))
  return { regular: regular!, bold: bold! }
}
