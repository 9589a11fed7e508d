/**
 * A part as slabs: plane regions of straight and arc edges, each standing between two heights with one density
 * (negative for a body that removes). Boring cuts slabs exactly; weighing them is closed-form.
 */
import { keptBy, keptOf } from '../geometry/kept.ts'
import { cutDisc, regionEdges, type DiscCut } from '../geometry/discCut.ts'
import type { Edge } from '../geometry/edges.ts'
import { edgeMoments } from '../geometry/ringMoments.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isUpright, liesAcross, type Bore, type Part } from '../job/schema.ts'
import { acrossBlocks } from './across.ts'
import { NO_MASS, addMass, prismMass, type MassMoments } from './massMoments.ts'

export interface Slab {
  readonly body: string
  readonly edges: readonly Edge[]
  /** Heights above the part's seat, mm. */
  readonly z0: number
  readonly z1: number
  /** kg/mm³, negative for what a body removes. */
  readonly density: number
}

/** kg/m³ to kg/mm³. */
export const PER_MM3 = 1e-9

/** The prisms of a part before any bore is cut, part frame. */
export function partSlabs(part: Part): Slab[] {
  return part.bodies.filter(isUpright).map((body) => ({
    body: body.id,
    edges: regionEdges(body),
    z0: body.base,
    z1: body.base + body.thickness,
    density: bodyDensity(part, body) * PER_MM3,
  }))
}

/** Those of bodies that lie across, for what is cut out of them: steps that agree with their outline in the mean. Kept per part. */
export const acrossSlabs: (part: Part) => readonly Slab[] = keptOf(slabsAcross)

function slabsAcross(part: Part): Slab[] {
  return part.bodies.filter(liesAcross).flatMap((body) =>
    acrossBlocks(body, 'middle').map(({ ring, z0, z1 }) => ({
      body: body.id,
      edges: regionEdges({ outline: ring, holes: [] }),
      z0,
      z1,
      density: bodyDensity(part, body) * PER_MM3,
    })),
  )
}

/** kg/m³, negative where the body removes. */
export function bodyDensity(part: Part, body: Part['bodies'][number]): number {
  return (body.effect === 'adds' ? 1 : -1) * (body.density ?? part.density)
}

export interface BoreRange {
  readonly z0: number
  readonly z1: number
  readonly through: boolean
}

const ranges = keptBy<Part, Bore, BoreRange | null>()

/**
 * Heights above the seat that cutting a bore takes away, from the adding bodies it meets; null: it meets none. Kept per
 * part object, which is immutable: every analysis of a drag asks it again.
 */
export const boreRange = (part: Part, bore: Bore): BoreRange | null =>
  ranges(part, bore, () => findRange(part, bore))

function findRange(part: Part, bore: Bore): BoreRange | null {
  let front = -Infinity
  let back = Infinity
  for (const { edges, z0, z1, density } of [...partSlabs(part), ...acrossSlabs(part)]) {
    if (density < 0 || !meets(edges, bore)) continue
    front = Math.max(front, z1)
    back = Math.min(back, z0)
  }
  if (front === -Infinity) return null
  const z0 = bore.depth === null ? back : Math.max(back, front - bore.depth)
  return { z0, z1: front, through: z0 <= back + TOLERANCE.height }
}

function meets(edges: readonly Edge[], bore: Bore): boolean {
  const { inside } = finishCut(edges, bore)
  return edgeMoments(inside, bore).area > TOLERANCE.clashArea
}

/** The ring between two diameters about a point of the part. */
type Annulus = Pick<Bore, 'x' | 'y' | 'start' | 'diameter'>

/** A ring that is cut between two heights above the seat. */
export interface RingCut extends Annulus {
  readonly z0: number
  readonly z1: number
}

/** What a cut takes away: a bore to its depth, or a ring. */
export type Removal = Bore | RingCut

/** Heights above the seat that a cut takes away, mm; null where it meets nothing. */
export const removalRange = (part: Part, removal: Removal): Pick<BoreRange, 'z0' | 'z1'> | null =>
  'z0' in removal ? removal : boreRange(part, removal)

const finishCuts = keptBy<readonly Edge[], Annulus, DiscCut>()

/** A region cut by a bore's finish circle; kept, for its reach, its mass and its area all ask it. */
const finishCut = (edges: readonly Edge[], bore: Annulus): DiscCut =>
  finishCuts(edges, bore, () => cutDisc(edges, bore, bore.diameter))

const annuli = new WeakMap<DiscCut, Edge[]>()

/** What is left of a region once an annulus, start to finish diameter, is gone, and whether it met any. */
export function cutAnnulus(edges: readonly Edge[], bore: Annulus): { left: Edge[]; touched: boolean } {
  const cut = finishCut(edges, bore)
  let left = annuli.get(cut)
  if (!left) {
    const core = bore.start > 0 ? cutDisc(cut.inside, bore, bore.start).inside : []
    annuli.set(cut, (left = [...cut.outside, ...core]))
  }
  return { left, touched: edgeMoments(cut.inside, bore).area > 0 }
}

/** Slabs after a cut: the annulus between its start and finish diameters is gone over its heights. */
export function cutAway(part: Part, slabs: readonly Slab[], removal: Removal): Slab[] {
  const range = removalRange(part, removal)
  if (!range) return [...slabs]
  return slabs.flatMap((slab) => {
    const low = Math.max(slab.z0, range.z0)
    const high = Math.min(slab.z1, range.z1)
    if (high - low <= TOLERANCE.height) return [slab]
    const { left, touched } = cutAnnulus(slab.edges, removal)
    if (!touched) return [slab]
    const pieces: Slab[] = [{ ...slab, edges: left, z0: low, z1: high }]
    if (low - slab.z0 > TOLERANCE.height) pieces.push({ ...slab, z1: low })
    if (slab.z1 - high > TOLERANCE.height) pieces.push({ ...slab, z0: high })
    return pieces
  })
}

/** Mass moments of slabs about the part frame's origin. */
export const slabMass = (slabs: readonly Slab[]): MassMoments =>
  slabs.reduce(
    (sum, { edges, z0, z1, density }) => addMass(sum, prismMass(edgeMoments(edges), z0, z1, density)),
    NO_MASS,
  )
