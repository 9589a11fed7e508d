/**
 * Ordinary shop hardware to start from. Sizes are usual ones and the shop's own will differ; masses follow from size
 * and material, so that only what is measured needs typing.
 */
import { findMaterial } from '../../../src-core/job/materials.ts'
import type { Hardware, StockItem } from '../../../src-core/job/schema.ts'

/** kg/m³ */
const STEEL = findMaterial('mild steel')?.density ?? 7850

interface StrapSize {
  readonly thread: string
  /** mm: length, width and thickness of the strap; height from its underside to the top of nut and stud. */
  readonly length: number
  readonly width: number
  readonly thickness: number
  readonly height: number
  /** N·m: a usual tightening of a class 8.8 stud by hand, well under its proof load. */
  readonly torque: number
}

export const STRAPS: readonly StrapSize[] = [
  { thread: 'M8', length: 60, width: 20, thickness: 10, height: 28, torque: 13 },
  { thread: 'M10', length: 80, width: 25, thickness: 12, height: 35, torque: 26 },
  { thread: 'M12', length: 100, width: 30, thickness: 15, height: 42, torque: 45 },
  { thread: 'M16', length: 125, width: 40, thickness: 20, height: 55, torque: 110 },
]

/** Strap less its slot (a third of its length, a little over the thread wide), with stud, nut and washer. kg */
export function strapMass(s: StrapSize): number {
  const d = Number(s.thread.slice(1))
  const strap = (s.length * s.width - (s.length / 3) * (d + 1)) * s.thickness
  const stud = (Math.PI / 4) * d * d * (s.height + 40)
  const nut = 2.6 * d * d * 0.9 * d
  return Number(((strap + stud + nut) * STEEL * 1e-9).toFixed(3))
}

export function strapClamp(s: StrapSize, at: Hardware['at'], base: number): Omit<Hardware, 'id'> {
  return {
    kind: 'clamp',
    name: `strap clamp ${s.thread}`,
    mass: strapMass(s),
    at,
    footprint: { rect: [s.length, s.width] },
    base,
    height: s.height,
    fixed: true,
    clamp: { thread: s.thread, class: '8.8', torque: s.torque, boltToHeel: Math.round(s.length * 0.42) },
  }
}

interface DiscSize {
  readonly diameter: number
  readonly height: number
}

export const DISCS: readonly DiscSize[] = [
  { diameter: 30, height: 20 },
  { diameter: 40, height: 20 },
  { diameter: 50, height: 25 },
  { diameter: 60, height: 30 },
  { diameter: 80, height: 30 },
]

/** A drilled steel disc; the 14 mm hole for its bolt is left out of the mass. */
export function steelDisc(d: DiscSize): Omit<StockItem, 'id'> {
  const area = (Math.PI / 4) * (d.diameter ** 2 - 14 ** 2)
  return {
    name: `steel disc ${d.diameter}`,
    mass: Number((area * d.height * STEEL * 1e-9).toFixed(3)),
    count: 4,
    footprint: { circle: d.diameter },
    height: d.height,
  }
}
