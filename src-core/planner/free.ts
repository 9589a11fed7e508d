/**
 * Free radii: where along its slot (or whether in its hole) a stack or a piece of hardware may stand. Everything is
 * exact for straight edges and discs; arcs of outlines are drawn as chords that stray by at most 0.01 mm, and every
 * shape is grown by `TOLERANCE.inside` to make up for it, so a radius given as free is free.
 */
import { carriageRows, crossSlideReach } from '../clearance/carriage.ts'
import { obstaclesAt } from '../clearance/clearance.ts'
import { polygonIntersection } from '../geometry/polygon.ts'
import { boxOf, type Polygons } from '../geometry/polygonBox.ts'
import {
  discPolygons,
  flatBodies,
  ringPolygons,
  materialBetween,
  type FlatBody,
} from '../mounting/material.ts'
import { angleOf, directionOf, polar, toDegrees, turnPoint } from '../geometry/angles.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Plate } from '../job/schema.ts'
import { pressPoint } from '../mounting/press.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import type { Interval } from './intervals.ts'
import { growShape, type Shape } from './shape.ts'
import { clearOf, withinRadius, type Rings } from './sweep.ts'

/** A slot or hole as a line from the axis: the bolt stands `radius` mm along `angle` degrees. */
export interface Station {
  readonly kind: 'slot' | 'hole'
  readonly id: string
  readonly angle: number
  readonly from: number
  readonly to: number
  /** mm */
  readonly bolt: number
}

/** Every slot and hole of a plate; a hole is a slot of no length. */
export function listStations(plate: Plate): Station[] {
  return [
    ...plate.slots.map((s): Station => ({
      kind: 'slot',
      id: s.id,
      angle: s.angle,
      from: s.from,
      to: s.to,
      bolt: s.width,
    })),
    ...plate.holes.map((h): Station => {
      const radius = Math.hypot(h.x, h.y)
      const angle = toDegrees(angleOf(h))
      return { kind: 'hole', id: h.id, angle, from: radius, to: radius, bolt: h.diameter }
    }),
  ]
}

interface Obstacle {
  readonly rings: Polygons
  readonly z0: number
  readonly z1: number
  /** Id of the piece of hardware it belongs to; null for the boring bar's path. */
  readonly owner: string | null
}

export interface FreeQuery {
  readonly station: Station
  /** Already turned so that +x is the station's direction. */
  readonly shape: Shape
  readonly z0: number
  readonly z1: number
  /** Pieces of hardware that do not count. */
  readonly without: readonly string[]
  /** A clamp reaches over the part on purpose: then only its bolt must miss it. */
  readonly overPart: boolean
  /** mm from the axis: the rim, or further for a piece that already overhangs it. */
  readonly rim: number
}

export class FreeRadii {
  private readonly mounted: Mounted
  /** Clearance asked for beyond `TOLERANCE.inside`, and from what swings past, mm. */
  private readonly clearance: number
  private readonly swingMargin: number
  private readonly bodies: readonly FlatBody[]
  private readonly obstacles: Obstacle[]
  private readonly breaks: number[]
  private readonly material = new Map<string, Rings>()
  private readonly shapes = new Map<Shape, Shape>()
  private readonly turned = new Map<Rings, Map<number, Rings>>()

  constructor(mounted: Mounted, clearance = 0, swingMargin = 0) {
    this.mounted = mounted
    this.clearance = clearance
    this.swingMargin = swingMargin
    this.bodies = flatBodies(mounted)
    this.obstacles = obstaclesOf(mounted)
    const { gap } = mounted.job.lathe
    const heights = [
      ...this.bodies.flatMap((b) => [b.z0, b.z1]),
      ...mounted.bores.flatMap((b) => [b.z0, b.z1]),
      ...this.obstacles.flatMap((o) => [o.z0, o.z1]),
      crossSlideReach(mounted) ?? Infinity,
      ...carriageRows(mounted).map((r) => r.from),
      gap?.open ? gap.width : Infinity,
    ]
    this.breaks = [...new Set(heights.filter((z) => Number.isFinite(z)))].sort((a, b) => a - b)
  }

  private heightClass(top: number): number {
    let low = 0
    let high = this.breaks.length
    while (low < high) {
      const middle = (low + high) >> 1
      if (this.breaks[middle]! < top - TOLERANCE.height) low = middle + 1
      else high = middle
    }
    return low
  }

  /** Radii, mm, at which the shape clears everything that does not move with it. */
  find(q: FreeQuery): Interval[] {
    const { station, z0, z1 } = q
    const shape = this.grown(q.shape)
    const ends = withinRadius({ lo: station.from, hi: station.to }, shape, this.limit(q))
    if (!ends) return []
    let free: Interval[] = [ends]
    for (const o of this.obstacles) {
      if (free.length === 0) return []
      if (o.owner !== null && q.without.includes(o.owner)) continue
      if (Math.min(o.z1, z1) - Math.max(o.z0, z0) <= TOLERANCE.height) continue
      free = clearOf(free, shape, this.inFrameOf(o.rings, station))
    }
    if (!q.overPart) free = clearOf(free, shape, this.inFrameOf(this.materialBetween(z0, z1), station))
    if (free.length === 0 || station.bolt <= 0) return free
    const bolt: Shape = { kind: 'disc', radius: station.bolt / 2 + TOLERANCE.inside }
    return clearOf(free, bolt, this.inFrameOf(this.materialBetween(0, z1), station))
  }

  private grown(shape: Shape): Shape {
    let kept = this.shapes.get(shape)
    if (!kept) this.shapes.set(shape, (kept = growShape(shape, TOLERANCE.inside + this.clearance)))
    return kept
  }

  /** Where something of the lathe is not known it cannot be judged here: the analysis says so. */
  private limit({ z0, z1, rim }: FreeQuery): number {
    return Math.min(rim, ...obstaclesAt(this.mounted, { z0, z1 }).map((o) => o.radius - this.swingMargin))
  }

  private materialBetween(z0: number, z1: number): Rings {
    const key = `${z0} ${z1}`
    let rings = this.material.get(key)
    if (rings) return rings
    const reach = this.mounted.job.plate.diameter
    const box = { x0: -reach, y0: -reach, x1: reach, y1: reach }
    rings = materialBetween(this.mounted, this.bodies, z0, z1, box)
    this.material.set(key, rings)
    return rings
  }

  /** Turned so that the station's direction is +x; kept, since every stack of a slot asks again. */
  private inFrameOf(rings: Rings, station: Station): Rings {
    let kept = this.turned.get(rings)
    if (!kept) this.turned.set(rings, (kept = new Map<number, Rings>()))
    let turned = kept.get(station.angle)
    if (!turned) {
      turned = rings.map((ring) => ring.map((p: Point) => turnPoint(p, -station.angle)))
      kept.set(station.angle, turned)
    }
    return turned
  }

  /** The height nearest below, and above, at which something begins or ends: between two of them nothing changes. */
  classBottom(z: number): number {
    const above = this.breaks[this.heightClass(z)]
    if (above !== undefined && above <= z + TOLERANCE.height) return above
    return Math.max(0, this.breaks[this.heightClass(z) - 1] ?? 0)
  }

  classTop(z: number): number {
    return Math.max(z, this.breaks[this.heightClass(z)] ?? TALL)
  }
}

/** mm: beyond anything. */
const TALL = 1e5

/**
 * Where a heel must stand that the job has not: under the tail of a clamp without one, and of a press that stands off
 * the plate, from its bolt away from where it presses.
 */
function heelPlace(piece: MountedPiece): Obstacle[] {
  const { item, at, footprint, solids, z0 } = piece
  const wanting = item.kind === 'press' || (item.kind === 'clamp' && !solids.some((s) => s.role === 'heel'))
  if (!wanting || z0 <= 0) return []
  const presses = pressPoint(piece)
  const facing = presses ? directionOf({ x: presses.x - at.x, y: presses.y - at.y }) : piece.facing
  const forward = polar(1, facing)
  const corner = (along: number, across: number): Point => ({
    x: at.x + along * forward.x - across * forward.y,
    y: at.y + along * forward.y + across * forward.x,
  })
  const behind = [corner(0, -WIDE), corner(0, WIDE), corner(-WIDE, WIDE), corner(-WIDE, -WIDE)]
  const rings = polygonIntersection(ringPolygons(footprint), [behind])
  return rings.length === 0 ? [] : [{ rings, z0: 0, z1: z0, owner: item.id }]
}

/** mm: beyond any plate. */
const WIDE = 1e4

/** Hardware, the bolts below hardware that stands off the plate, and the boring bar's path. */
function obstaclesOf(mounted: Mounted): Obstacle[] {
  const list: Obstacle[] = []
  for (const p of mounted.pieces) {
    for (const { ring, z0, z1 } of p.solids)
      if (z1 > 0) list.push({ rings: ringPolygons(ring), z0: Math.max(0, z0), z1, owner: p.item.id })
    if (p.bolt && p.bolt.diameter > 0 && p.z0 > 0)
      list.push({ rings: discPolygons(p.bolt.at, p.bolt.diameter), z0: 0, z1: p.z0, owner: p.item.id })
  }
  for (const p of mounted.pieces) list.push(...heelPlace(p))
  const bore = mounted.workBore
  if (bore)
    list.push({
      rings: discPolygons({ x: 0, y: 0 }, bore.bore.diameter),
      z0: bore.z0,
      z1: Infinity,
      owner: null,
    })
  return list.filter((o) => o.rings.some((r) => r.length > 2) && boxOf(o.rings).x0 < Infinity)
}
