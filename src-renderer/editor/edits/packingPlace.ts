/** Packing is a place under the part: between its seat and the plate's face, as high as the setup's packing. */
import { rectRing } from '../../../src-core/geometry/edges.ts'
import { nearestTo } from '../../../src-core/geometry/nearest.ts'
import { polygonArea, polygonIntersection } from '../../../src-core/geometry/polygon.ts'
import { boxOf } from '../../../src-core/geometry/polygonBox.ts'
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { STEEL_PER_MM3 } from '../../../src-core/hardware/steel.ts'
import type { Box, Job } from '../../../src-core/job/schema.ts'
import {
  discPolygons,
  flatBodies,
  materialBetween,
  ringPolygons,
} from '../../../src-core/mounting/material.ts'
import { partAt } from '../../../src-core/mounting/partAt.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { slotRing } from '../../../src-core/mounting/plateFace.ts'
import { sizeFor } from '../../../src-core/units/convert.ts'
import type { DisplayUnits } from '../../../src-core/units/format.ts'
import { roundTo } from '../snap.ts'
import { editSetup, type Piece } from './edit.ts'
import { groundUnder } from './fixtures.ts'

/** mm: side of the packing that is put down where none is chosen. */
const sizeIn = (units: DisplayUnits): number => sizeFor(units, 25, 1)
/** Places tried across the part each way, and how thin a layer over the seat counts. */
const TRIED = 24
const SKIN = 0.05

/** The place for packing of a size that is farthest from what carries the part already; null where none fits. */
export function packingPlace(mounted: Mounted | null, size?: readonly [number, number]): Point | null {
  if (!mounted) return null
  const { plate, displayUnits } = mounted.job
  const [length, width] = size ?? [sizeIn(displayUnits), sizeIn(displayUnits)]
  const step = sizeFor(displayUnits, 0.5, 1 / 16)
  const { seat } = mounted
  const bodies = flatBodies(mounted)
  const part = boxOf(bodies.filter((b) => b.adds).flatMap((b) => b.polygons))
  const seatFace = materialBetween(mounted, bodies, seat, seat + SKIN, part)
  if (seatFace.length === 0) return null
  const gaps = [
    discPolygons({ x: 0, y: 0 }, plate.bore),
    ...plate.slots.map((s) => ringPolygons(slotRing(s))),
  ]
  const cut = mounted.bores.map((b) => discPolygons(b.centre, b.bore.diameter))
  const carried = mounted.pieces.flatMap((p) => p.solids.filter((s) => s.role === 'packing'))
  const solids = mounted.pieces.flatMap((p) => p.solids.filter((s) => s.z0 < seat && s.z1 > 0))
  const inWay = [...cut, ...solids.map((s) => ringPolygons(s.ring))]
  const { x0, y0, x1, y1 } = boxOf(seatFace)
  let best: { at: Point; slack: number } | null = null
  for (let i = 0; i <= TRIED; i++)
    for (let j = 0; j <= TRIED; j++) {
      const at = {
        x: roundTo(x0 + (i * (x1 - x0)) / TRIED, step),
        y: roundTo(y0 + (j * (y1 - y0)) / TRIED, step),
      }
      const far = carried.map((s) => Math.hypot(s.massCentre.x - at.x, s.massCentre.y - at.y))
      const apart = Math.min(...far, far.length === 0 ? Math.hypot(at.x, at.y) : Infinity)
      // Over a slot's mouth packing carries only beside it.
      if (best && apart <= best.slack) continue
      const pad = ringPolygons(rectRing(at, length, width, 0))
      const over = (other: ReturnType<typeof ringPolygons>) => polygonArea(polygonIntersection(pad, other))
      if (over(seatFace) < length * width - TOLERANCE.clashArea) continue
      if (inWay.some((p) => over(p) > TOLERANCE.clashArea)) continue
      if (gaps.some((p) => over(p) > TOLERANCE.clashArea)) continue
      best = { at, slack: apart }
    }
  return best?.at ?? null
}

export function newPacking(at: Point, height: number, base = 0, units: DisplayUnits = 'mm'): Piece<Box> {
  const size = sizeIn(units)
  const high = Math.max(1, height)
  return {
    kind: 'packing',
    name: 'parallel',
    mass: Number((size * size * high * STEEL_PER_MM3).toFixed(4)),
    at,
    footprint: { rect: [size, size] },
    facing: 0,
    base,
    height: high,
    fixed: true,
  }
}

/** Sets how high the part is packed up; packing that was as high goes with it, its mass in proportion. */
export const setPacking = (job: Job, setupId: string, packing: number): Job =>
  editSetup(job, setupId, (s) => {
    const ground = groundUnder(s)
    for (const piece of s.hardware) {
      if (piece.kind !== 'packing' || packing <= 0) continue
      const top = piece.base + piece.height
      const next = ground + packing - piece.base
      if (Math.abs(top - ground - s.packing) > TOLERANCE.height || next <= 0) continue
      piece.mass = Number(((piece.mass * next) / piece.height).toFixed(4))
      piece.height = next
    }
    s.packing = packing
  })

/** Whether packing at a point is under the part, and the point under it that is nearest. */
export function underPart(mounted: Mounted, at: Point): { readonly under: boolean; readonly nearest: Point } {
  if (partAt(mounted, at).off <= 0) return { under: true, nearest: at }
  const edges = mounted.bodies
    .filter((b) => b.body.effect === 'adds')
    .flatMap((b) => b.regions.flatMap((r) => [r.outline, ...r.holes]))
    .map((ring) => nearestTo(ring, at))
  const first = edges.reduce<{ point: Point; distance: number } | null>(
    (a, b) => (a && a.distance <= b.distance ? a : b),
    null,
  )
  return { under: false, nearest: first?.point ?? at }
}
