/** What the flags of `sheet` ask of the drawing; they go before what the job itself says. */
import { SHEETS, type SheetName } from '../../src-core/drawing/sheet/sheetSizes.ts'
import type { SheetOptions } from '../../src-core/drawing/sheet/setupSheet.ts'
import { textValue, type Call } from './command.ts'
import { Failure } from './failure.ts'
import { today } from './today.ts'

export type SheetFlags = SheetOptions & { readonly sheet?: SheetName }

const FIELDS = ['owner', 'by', 'approved', 'revision'] as const

/** Throws `Failure` on a word that means nothing. */
export function sheetFlags(call: Call): SheetFlags {
  const size = sizeFlag(call)
  const scale = scaleFlag(textValue(call, 'scale'))
  const projection = projectionFlag(textValue(call, 'projection'))
  return {
    date: today(),
    ...(size && { sheet: size }),
    ...(scale && { scale }),
    ...(projection && { projection }),
    ...Object.fromEntries(FIELDS.map((name) => [name, textValue(call, name)])),
  }
}

function sizeFlag(call: Call): SheetName | undefined {
  const word = textValue(call, 'size')
  if (word === undefined) return undefined
  const names = Object.keys(SHEETS) as SheetName[]
  const found = names.find((n) => n.toLowerCase() === word.trim().toLowerCase().replace(' ', '-'))
  if (!found) throw new Failure(`sheet: --size: there is no sheet "${word}"; there are ${names.join(', ')}`)
  return found
}

function scaleFlag(word: string | undefined): number | 'auto' | undefined {
  if (word === undefined || word === 'auto') return word
  const parts = word.split(':').map((p) => (/^\d+(\.\d+)?$/.test(p.trim()) ? Number(p) : NaN))
  const scale = parts.length === 2 ? parts[0]! / parts[1]! : NaN
  if (!(scale > 0 && Number.isFinite(scale)))
    throw new Failure(`sheet: --scale: "${word}" is not a scale; write it like 1:2, or auto`)
  return scale
}

function projectionFlag(word: string | undefined): 'first' | 'third' | undefined {
  if (word === undefined || word === 'first' || word === 'third') return word
  throw new Failure(`sheet: --projection: there is no projection "${word}"; there are first, third`)
}
