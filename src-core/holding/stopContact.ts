/** Where a stop block or a pin stands hard against the part, and which way it holds; or why it holds nothing. */
import { polar, roundCircle } from '../geometry/angles.ts'
import { rectRing } from '../geometry/edges.ts'
import { isWithin, nearestTo } from '../geometry/nearest.ts'
import { polygonIntersection } from '../geometry/polygon.ts'
import { boxOf, type Polygons } from '../geometry/polygonBox.ts'
import type { Point } from '../geometry/types.ts'
import type { Dowel, StopBlock } from '../job/schema.ts'
import { discPolygons, ringPolygons } from '../mounting/material.ts'
import { holeAt } from '../mounting/plateFace.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import type { Formatter } from '../units/format.ts'
import { standWords } from './stand.ts'
import { LEAST_SHARED, layersOf, TOUCH, type Layer } from './partSide.ts'

/** mm that a stop's front is looked ahead of for the part. */
const AHEAD = 400
/** mm that the middle of a contact lies in from the end of a stop's front: with its corner it holds no known way. Own choice. */
const FROM_CORNER = 1
/** mm of play, across, that a pin may have in a hole and still be guided by it. Own choice. */
export const PIN_PLAY = 0.1
/** Directions in which a pin's hole must be near. */
const ROUND = 36

export interface StopContact {
  /** On what the part stands on, mm. */
  readonly at: Point
  /** mm that it reaches to either side of there, across `into`; 0 of a pin. */
  readonly half: number
  /** From the part into what stands in its way, of length 1; null: it holds whichever way. */
  readonly into: Point | null
  /** Heights that it shares with the part, from the face that it stands on, mm. */
  readonly low: number
  readonly high: number
}

/** Why a piece holds nothing, as it follows its name, and what would cure it. */
export interface Idle {
  readonly contact: null
  readonly why: string
  readonly cure: string
}
export type Touching = { readonly contact: StopContact } | Idle

const nothing = (why: string, cure: string): Idle => ({ contact: null, why, cure })

/** A stop block by its front. The part's outlines must be sound. */
export function stopContact(
  mounted: Mounted,
  { item, solids }: MountedPiece & { readonly item: StopBlock },
  fmt: Formatter,
): Touching {
  const [length, width] = item.size
  const block = solids.find((s) => s.role === 'block')!
  const height = block.z1
  const low = tooLow(mounted, height, fmt)
  if (low) return low
  const { facing } = item
  const ahead = polar(1, facing)
  const front = step(block.massCentre, ahead, length / 2)
  const strip = (depth: number) => ringPolygons(rectRing(step(front, ahead, depth / 2), depth, width, facing))
  const far = (p: Point) => (p.x - front.x) * ahead.x + (p.y - front.y) * ahead.y
  const touching = strip(TOUCH)
  const layers = layersOf(mounted, height, boxOf(strip(AHEAD)))
  const [lowest] = layers
  const on = lowest ? meet(lowest.material, touching) : []
  if (!lowest || on.length === 0) {
    const higher = layers.some((l) => meet(l.material, touching).length > 0)
    if (higher)
      return nothing('meets the part only above its seat', 'Move it to an edge that reaches down to the seat')
    const gap = Math.min(...layers.flatMap((l) => meet(l.material, strip(AHEAD))).map(far))
    return Number.isFinite(gap)
      ? nothing(`stands ${fmt.length(gap)} off the part`, 'Bring it hard against the edge')
      : nothing('faces no edge of the part', 'Turn it towards one and bring it hard against it')
  }
  const across = on.map((p) => (p.y - front.y) * ahead.x - (p.x - front.x) * ahead.y)
  const [from, to] = [Math.min(...across), Math.max(...across)]
  const middle = (from + to) / 2
  if (Math.abs(middle) > width / 2 - FROM_CORNER)
    return nothing('meets the part with a corner only', 'Turn or move it so that its front lies on the edge')
  const at = { x: front.x - middle * ahead.y, y: front.y + middle * ahead.x }
  const high = topOf(layers, (l) => meet(l.material, touching).length > 0)
  const into = { x: -ahead.x, y: -ahead.y }
  return { contact: { at, half: (to - from) / 2, into, low: lowest.z0, high } }
}

/** A pin in a hole of the part, or against an edge of it; in a hole of the plate that guides it. */
export function pinContact(
  mounted: Mounted,
  { item, at }: MountedPiece & { readonly item: Dowel },
  fmt: Formatter,
): Touching {
  const low = tooLow(mounted, item.length, fmt)
  if (low) return low
  const { diameter, length } = item
  const hole = holeAt(mounted.job.plate, at)
  const play = hole && hole.thread === null ? hole.width - diameter : null
  if (play === null || play < -TOUCH)
    return nothing(`has no hole of ${standWords(mounted)} that takes it`, 'Put it into one')
  if (play > PIN_PLAY + 1e-9)
    return nothing(
      `is loose by ${fmt.length(play)} in hole ${hole!.id} of ${standWords(mounted)}`,
      'Use a pin that fits it',
    )
  const layers = layersOf(mounted, length, boxOf(discPolygons(at, diameter + 2 * AHEAD)))
  const [lowest] = layers
  if (!lowest) return nothing('does not reach the part', 'Use a longer one')
  if (isGuided(lowest.material, at, diameter / 2 + PIN_PLAY)) {
    const high = topOf(layers, (l) => isGuided(l.material, at, diameter / 2 + PIN_PLAY))
    return { contact: { at, half: 0, into: null, low: lowest.z0, high } }
  }
  const touches = (l: Layer) => gapOf(nearestIn(l.material, at), at, diameter) <= TOUCH
  const nearest = nearestIn(lowest.material, at)
  const gap = gapOf(nearest, at, diameter)
  if (!nearest || !(gap <= TOUCH))
    return Number.isFinite(gap)
      ? nothing(
          `stands ${fmt.length(gap)} off the part`,
          'Bring the part hard against it, or use a pin that fits its hole',
        )
      : nothing('meets nothing of the part at its seat', 'Put it against an edge or into a hole of the part')
  const away = Math.hypot(nearest.x - at.x, nearest.y - at.y)
  const into = { x: (at.x - nearest.x) / away, y: (at.y - nearest.y) / away }
  return { contact: { at: nearest, half: 0, into, low: lowest.z0, high: topOf(layers, touches) } }
}

function tooLow(mounted: Mounted, height: number, fmt: Formatter): Idle | null {
  const { seat, shelf } = mounted
  const shared = height - seat
  if (shared >= LEAST_SHARED) return null
  const stand = standWords(mounted)
  return nothing(
    `is too low for the part, whose seat is ${fmt.length(seat)} from ${stand}`,
    `Use one that stands ${fmt.length(seat + LEAST_SHARED)} or more ${shelf ? 'over' : 'in front of'} ${stand}`,
  )
}

const step = (p: Point, by: Point, length: number): Point => ({
  x: p.x + by.x * length,
  y: p.y + by.y * length,
})

const meet = (material: Polygons, strip: Polygons): Point[] =>
  material.length === 0 ? [] : polygonIntersection(material, strip).flat()

/** How high the layers that meet it reach without a break from the seat. */
function topOf(layers: readonly Layer[], meets: (l: Layer) => boolean): number {
  let top = layers[0]!.z0
  for (const l of layers) {
    if (l.z0 > top + 1e-9 || !meets(l)) break
    top = l.z1
  }
  return top
}

/** Whether material is within reach all round. */
const isGuided = (material: Polygons, at: Point, radius: number): boolean =>
  material.length > 0 && roundCircle(at, radius, ROUND).every((p) => isWithin(material, p))

function nearestIn(material: Polygons, from: Point): Point | null {
  const all = material.map((ring) => nearestTo(ring, from))
  return all.length > 0 ? all.reduce((a, b) => (b.distance < a.distance ? b : a)).point : null
}

/** mm between a pin's skin and a place; Infinity where there is none. */
const gapOf = (nearest: Point | null, at: Point, diameter: number): number =>
  nearest ? Math.hypot(nearest.x - at.x, nearest.y - at.y) - diameter / 2 : Infinity
