/** Reads a drawing or a mesh by what its name ends in. */
import { importCsv } from './csv.ts'
import { importDxf } from './dxf/read.ts'
import { refused } from './refusal.ts'
import { importStl } from './stl.ts'
import { importSvg } from './svg/read.ts'
import type { ImportOptions, ImportResult } from './types.ts'

/** Endings that `importFile` takes. */
export const IMPORT_ENDINGS = ['dxf', 'svg', 'csv', 'txt', 'stl'] as const

/** Never throws on any bytes. SVG and CSV are taken as UTF-8, or UTF-16 with a byte order mark. */
export function importFile(name: string, bytes: Uint8Array, options: ImportOptions = {}): ImportResult {
  const ending = /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase()
  if (ending === 'dxf') return importDxf(bytes, options)
  if (ending === 'stl') return importStl(bytes, options)
  if (ending === 'svg') return importSvg(decodeText(bytes), options)
  if (ending === 'csv' || ending === 'txt') return importCsv(decodeText(bytes), options)
  return refused({ place: 'the name', reason: `only ${IMPORT_ENDINGS.join(', ')} files are imported` })
}

function decodeText(bytes: Uint8Array): string {
  const wide =
    bytes[0] === 0xff && bytes[1] === 0xfe
      ? 'utf-16le'
      : bytes[0] === 0xfe && bytes[1] === 0xff
        ? 'utf-16be'
        : null
  return new TextDecoder(wide ?? 'utf-8').decode(bytes)
}
