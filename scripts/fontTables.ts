/** The letter-width tables of sheets, as source text, from the fonts that sheets embed. */
import { readFile } from 'node:fs/promises'
import { create } from 'fontkit'
import { format, resolveConfig } from 'prettier'
import { fontFiles } from '../src-main/services/fonts.ts'

/** Code points that a sheet may hold, first and last of each run. */
const RUNS: readonly (readonly [first: number, last: number])[] = [
  [0x20, 0x7e],
  [0xa0, 0x17f],
  [0x180, 0x24f],
  [0x370, 0x3ff],
  [0x400, 0x45f],
  [0x1e00, 0x1eff],
  [0x2010, 0x2026],
  [0x2030, 0x203a],
  [0x2070, 0x209c],
  [0x20a0, 0x20bf],
  [0x2100, 0x214f],
  [0x2150, 0x218f],
  [0x2190, 0x2199],
  [0x2200, 0x22ff],
  [0x2300, 0x2300],
  [0x25a0, 0x25cf],
  [0xfffd, 0xfffd],
]

const RANGE_TYPE = `
/** Widths of consecutive characters from a first code point on; 0 where the font has none. */
export interface WidthRange {
  readonly first: number
  readonly widths: readonly number[]
}
`

/** Where each table goes; the first one holds the type of both. */
const TABLES = [
  {
    path: 'src-core/drawing/text/fontWidths.ts',
    font: 'DejaVu Sans',
    name: 'REGULAR_WIDTHS',
    head: RANGE_TYPE,
  },
  {
    path: 'src-core/drawing/text/fontWidthsBold.ts',
    font: 'DejaVu Sans Bold',
    name: 'BOLD_WIDTHS',
    head: `import type { WidthRange } from './fontWidths.ts'\n`,
  },
] as const

export interface FontTable {
  /** From the project's folder. */
  readonly path: string
  readonly text: string
}

/** Rows of a table of widths in thousandths of an em. */
function rowsOf(bytes: Uint8Array): string {
  const font = create(bytes)
  const width = (codePoint: number): number =>
    font.hasGlyphForCodePoint(codePoint)
      ? Math.round((1000 * font.glyphForCodePoint(codePoint).advanceWidth) / font.unitsPerEm)
      : 0
  return RUNS.map(([first, last]) => {
    const widths = Array.from({ length: last - first + 1 }, (_, i) => width(first + i))
    return `{ first: 0x${first.toString(16)}, widths: [${widths.join(', ')}] },`
  }).join('\n')
}

/** The tables for the regular and the bold font, formatted as the project is. */
export function fontTables(): Promise<FontTable[]> {
  const files = fontFiles()
  return Promise.all(
    TABLES.map(async ({ path, font, name, head }, i) => {
      const text = `/** Advance widths of ${font} in thousandths of an em; \`npm run font-widths\` writes this file. */
${head}
export const ${name}: readonly WidthRange[] = [
${rowsOf(await readFile(files[i]!))}
]
`
      return { path, text: await format(text, { ...(await resolveConfig(path)), filepath: path }) }
    }),
  )
}
