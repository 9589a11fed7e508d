/** From the readers' runs of edges to a preview. */
import { IMPORT_TOLERANCE } from '../geometry/tolerance.ts'
import type { Vertex } from '../geometry/types.ts'
import { LIMITS } from '../job/schema.ts'
import { convert } from '../units/convert.ts'
import type { Chain } from './chain.ts'
import type { DropList } from './dropList.ts'
import { joinEnds } from './joinEnds.ts'
import { nestRings, outlineFaults } from './nest.ts'
import type { ImportOptions, ImportUnit, Preview, PreviewFault } from './types.ts'

/** Beyond this there are not digits enough to join ends. */
const FARTHEST = 1e7

export interface Scale {
  readonly units: ImportUnit | null
  /** mm for one of the file's units; 1 where they are not known. */
  readonly factor: number
  /** In mm, or in the file's plain numbers. */
  readonly curve: number
  readonly join: number
}

/** @param extent of the drawing, in the file's own numbers. */
export function scaleOf(stated: ImportUnit | null, options: ImportOptions, extent: number): Scale {
  const units = options.units ?? stated
  const factor = units ? toMm(units) : 1
  const curve = units
    ? IMPORT_TOLERANCE.curve
    : Math.min(IMPORT_TOLERANCE.curve, IMPORT_TOLERANCE.curveShare * extent)
  const join =
    options.joinWithin ??
    (units ? IMPORT_TOLERANCE.join : Math.min(IMPORT_TOLERANCE.join, IMPORT_TOLERANCE.joinShare * extent))
  return {
    units,
    factor,
    curve: Math.max(curve, IMPORT_TOLERANCE.least),
    join: Math.max(IMPORT_TOLERANCE.least, Math.min(join, 100)),
  }
}

/** mm for one unit. CSS fixes its px at 1/96 of an inch. */
export const toMm = (unit: ImportUnit): number =>
  unit === 'px' ? convert(1, 'in', 'mm') / 96 : convert(1, unit, 'mm')

export interface Assembly {
  readonly kind: 'dxf' | 'svg' | 'csv'
  readonly units: ImportUnit | null
  readonly chains: readonly Chain[]
  readonly counts: Record<string, number>
  readonly drops: DropList
  readonly join: number
  readonly layers?: Preview['layers']
  readonly notes?: readonly string[]
}

/** Joins, sorts and checks; `chains` are already in mm, or in plain numbers where the unit is not known. */
export function assemble({ kind, units, chains, counts, drops, join, layers, notes }: Assembly): Preview {
  const closed: Vertex[][] = []
  const open: Chain[] = []
  for (const chain of chains) {
    if (chain.vertices.some((v) => !(Math.abs(v.x) <= FARTHEST && Math.abs(v.y) <= FARTHEST))) {
      drops.add(chain.kind, `reaches beyond ${FARTHEST}`, chain.place)
    } else if (chain.vertices.length < 2) drops.add(chain.kind, 'has a single vertex', chain.place)
    else if (chain.closed) closed.push([...chain.vertices])
    else open.push(chain)
  }
  const outlines = nestRings([...closed, ...joinEnds(open, join, drops)], join, drops)
  const general: PreviewFault[] = (notes ?? []).map((message) => ({ outline: null, at: null, message }))
  if (outlines.length === 0) general.push({ outline: null, at: null, message: 'no closed outline was found' })
  if (outlines.length > LIMITS.bodies) {
    const message = `${outlines.length} outlines, more than the ${LIMITS.bodies} bodies that a part may have`
    general.push({ outline: null, at: null, message })
  }
  return {
    ok: true,
    kind,
    units,
    outlines,
    counts,
    dropped: drops.list(),
    faults: [...general, ...outlineFaults(outlines)],
    layers: layers ?? [],
    solid: null,
  }
}
