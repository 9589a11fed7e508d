/** The kept tables of letter widths are what the fonts give. */
import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { fontTables } from '../../scripts/fontTables.ts'

test('letter widths are those of the fonts that sheets embed, regular and bold', async () => {
  const tables = await fontTables()
  expect(tables.map((t) => t.path)).toEqual([
    'src-core/drawing/text/fontWidths.ts',
    'src-core/drawing/text/fontWidthsBold.ts',
  ])
  for (const { path, text } of tables) expect(text, path).toBe(await readFile(path, 'utf8'))
})
