// Writes the letter-width tables in src-core/drawing from the fonts that sheets embed.
import { writeFile } from 'node:fs/promises'
import { fontTables } from './fontTables.ts'

for (const { path, text } of await fontTables()) await writeFile(path, text)
