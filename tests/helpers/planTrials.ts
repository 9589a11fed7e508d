/**
 * Random shops to plan for, and an exhaustive search of them on a grid of radii. It shares no code with the planner:
 * footprints are polygons, two of them are apart when some edge's normal parts them, and stacks are counted out.
 */
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { isBox, type Footprint, type Hardware, type Job, type StockItem } from '../../src-core/job/schema.ts'
import { block, bore, disc, jobWith, partOf, piece } from './jobs.ts'

/** Mulberry32: the same numbers for the same seed. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

export interface TrialSize {
  readonly kinds: number
  readonly slots: number
  readonly holes?: number
}

/**
 * An M12 stud through the plate of 28 mm with a nut on both sides and a washer, by hand: nuts of 18 mm across flats and
 * 10.8 mm (ISO 4032), washer 13 × 24 × 2.5 (ISO 7089), stress area 84.3 mm², pitch 1.75; studs come in fives.
 */
const DENSITY = 7.85e-6
const BEHIND = 28 + 12 / 5 + 10.8 + 2 * 1.75
const WASHER = 24
const NUT_VOLUME = ((Math.sqrt(3) / 2) * 18 ** 2 - (Math.PI / 4) * (12 - 0.649519 * 1.75) ** 2) * 10.8
const WASHER_VOLUME = (Math.PI / 4) * (24 ** 2 - 13 ** 2) * 2.5
const studLength = (height: number) => Math.ceil((BEHIND + height + 2.5 + 10.8 + 2 * 1.75) / 5) * 5
const boltMass = (height: number) => DENSITY * (84.3 * studLength(height) + 2 * NUT_VOLUME + WASHER_VOLUME)

/** An off-centre part with clamps, some slots unevenly spaced, and a little stock. */
export function trialJob(seed: number, size: TrialSize): Job {
  const random = randomFrom(seed)
  const between = (a: number, b: number) => Math.round((a + (b - a) * random()) * 100) / 100
  const chance = (p: number) => random() < p
  const footprint = (): Footprint =>
    chance(0.6) ? { circle: between(25, 65) } : { rect: [between(25, 80), between(20, 45)] }
  const stock = Array.from({ length: size.kinds }, (_, i): StockItem => ({
    id: `W${i + 1}`,
    mass: between(0.1, 1.6),
    count: chance(0.15) ? 0 : chance(0.5) ? 1 : 2,
    footprint: footprint(),
    height: between(10, 45),
  }))
  const slots = Array.from({ length: size.slots }, (_, i) => ({
    id: `S${i + 1}`,
    angle: (360 * i) / size.slots + between(-12, 12),
    from: between(45, 70),
    to: between(100, 140),
    width: 14,
    kind: 'through' as const,
  }))
  const holes = Array.from({ length: size.holes ?? 0 }, (_, i) => {
    const radius = between(60, 125)
    const angle = (2 * Math.PI * i) / size.holes! + between(0, 1)
    return { id: `H${i + 1}`, x: radius * Math.cos(angle), y: radius * Math.sin(angle), diameter: 13 }
  })
  const at = { x: between(-50, 50), y: between(-50, 50) }
  const body = chance(0.5)
    ? block('body', at, [between(60, 130), between(50, 100), between(15, 40)])
    : disc('body', at, between(60, 120), between(15, 40))
  const clamps = Array.from({ length: chance(0.5) ? 2 : 0 }, (_, i): Hardware =>
    piece(
      `c${i + 1}`,
      between(0.3, 0.8),
      { x: between(-110, 110), y: between(-110, 110) },
      {
        kind: 'press',
        footprint: { rect: [between(40, 80), 28] },
        facing: between(0, 359),
        base: chance(0.5) ? 0 : 30,
        height: 40,
      },
    ),
  )
  return {
    ...jobWith({
      plate: { slots, holes },
      lathe: { barReach: chance(0.5) ? null : between(20, 60), swingOverCrossSlide: between(190, 290) },
      part: partOf([body], [bore('A', { x: 0, y: 0 }, between(20, 60))]),
      setup: { centre: { bore: 'A' }, packing: between(8, 20), hardware: clamps },
    }),
    stock,
  }
}

type Polygon = readonly Point[]

export interface GridStack {
  readonly counts: readonly number[]
  readonly pieces: number
  /** g */
  readonly mass: number
  readonly height: number
  readonly footprints: readonly Footprint[]
}

export interface GridResult {
  /** g·mm: least residual on the grid with no more than one and two stations. */
  readonly one: number
  readonly two: number
  readonly placements: number
}

/** mm that the grid's placements keep from everything, so that what it finds free is free. */
const MARGIN = 0.06
const SIDES = 48

/** @param growth mm all round */
function polygonOf(footprint: Footprint, at: Point, facing: number, growth = 0): Polygon {
  if ('circle' in footprint) {
    const r = (footprint.circle / 2 + growth) / Math.cos(Math.PI / SIDES)
    return Array.from({ length: SIDES }, (_, i) => ({
      x: at.x + r * Math.cos((2 * Math.PI * (i + 0.5)) / SIDES),
      y: at.y + r * Math.sin((2 * Math.PI * (i + 0.5)) / SIDES),
    }))
  }
  if ('outline' in footprint) throw new Error('trials use discs and bars')
  const [l, w] = footprint.rect
  const a = (facing * Math.PI) / 180
  const corners: [number, number][] = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ]
  return corners.map(([u, v]) => {
    const x = u * (l / 2 + growth)
    const y = v * (w / 2 + growth)
    return { x: at.x + x * Math.cos(a) - y * Math.sin(a), y: at.y + x * Math.sin(a) + y * Math.cos(a) }
  })
}

/** Separating axis test for convex polygons: exact. */
function apart(a: Polygon, b: Polygon): boolean {
  const parts = (edges: Polygon) =>
    edges.some((p, i) => {
      const q = edges[(i + 1) % edges.length]!
      const nx = q.y - p.y
      const ny = p.x - q.x
      const along = (list: Polygon) => list.map((v) => v.x * nx + v.y * ny)
      const da = along(a)
      const db = along(b)
      return Math.max(...da) < Math.min(...db) || Math.max(...db) < Math.min(...da)
    })
  return parts(a) || parts(b)
}

interface Spot {
  readonly station: number
  readonly stack: GridStack
  readonly at: Point
  readonly angle: number
  /** g·mm */
  readonly x: number
  readonly y: number
}

/** Every stack of no more than `most` pieces, the stack's height limited. */
export function gridStacks(stock: readonly StockItem[], most: number, heightLimit: number): GridStack[] {
  const found: GridStack[] = []
  const count = (i: number, counts: number[]) => {
    if (i === stock.length) {
      const pieces = counts.reduce((s, c) => s + c, 0)
      const height = counts.reduce((h, c, k) => h + c * stock[k]!.height, 0)
      if (pieces === 0 || pieces > most || height > heightLimit) return
      const mass = counts.reduce((m, c, k) => m + c * stock[k]!.mass, boltMass(height)) * 1000
      const footprints = [
        ...stock.filter((_, k) => counts[k]! > 0).map((s) => s.footprint),
        { circle: WASHER },
      ]
      found.push({ counts, pieces, mass, height, footprints })
      return
    }
    for (let c = 0; c <= stock[i]!.count; c++) count(i + 1, [...counts, c])
  }
  count(0, [])
  return found
}

/** Least residuals with stacks on a grid of radii `step` mm apart; `most` pieces in all. */
export function gridSearch(job: Job, most: number, step: number, heightLimit = 120): GridResult {
  const setup = job.setups[0]!
  const base = analyse(job, setup.id)
  const angle = (base.unbalance.static_angle_deg * Math.PI) / 180
  const bx = base.unbalance.static_g_mm * Math.cos(angle)
  const by = base.unbalance.static_g_mm * Math.sin(angle)
  const stacks = gridStacks(job.stock, most, heightLimit)
  const stations = [
    ...job.plate.slots.map((s) => {
      const count = Math.floor((s.to - s.from) / step)
      return {
        angle: s.angle,
        bolt: s.width,
        radii: Array.from({ length: count + 1 }, (_, i) => s.from + i * step),
      }
    }),
    ...job.plate.holes.map((h) => ({
      angle: (Math.atan2(h.y, h.x) * 180) / Math.PI,
      bolt: h.diameter,
      radii: [Math.hypot(h.x, h.y)],
    })),
  ]
  const spots = stations.flatMap((s, station) =>
    stacks.flatMap((stack) =>
      s.radii.flatMap((radius): Spot[] => {
        const a = (s.angle * Math.PI) / 180
        const at = { x: radius * Math.cos(a), y: radius * Math.sin(a) }
        if (!canStand(job, stack, at, s.angle, s.bolt)) return []
        return [{ station, stack, at, angle: s.angle, x: stack.mass * at.x, y: stack.mass * at.y }]
      }),
    ),
  )
  let one = Math.hypot(bx, by)
  for (const s of spots) one = Math.min(one, Math.hypot(bx + s.x, by + s.y))
  let two = one
  let placements = spots.length
  for (let i = 0; i < spots.length; i++) {
    const p = spots[i]!
    for (let j = i + 1; j < spots.length; j++) {
      const q = spots[j]!
      if (p.station === q.station || p.stack.pieces + q.stack.pieces > most) continue
      placements++
      const x = bx + p.x + q.x
      const y = by + p.y + q.y
      if (x * x + y * y >= two * two) continue
      if (!p.stack.counts.every((c, k) => c + q.stack.counts[k]! <= job.stock[k]!.count)) continue
      const clear = p.stack.footprints.every((f) =>
        q.stack.footprints.every((g) =>
          apart(polygonOf(f, p.at, p.angle, MARGIN), polygonOf(g, q.at, q.angle, MARGIN)),
        ),
      )
      if (clear && hullsApart(p, q)) two = Math.hypot(x, y)
    }
  }
  return { one, two, placements }
}

/** Stacks of unlike footprints are judged by the rectangle or disc round them all, as no piece may then stick out. */
function hullsApart(p: Spot, q: Spot): boolean {
  if (p.stack.footprints.length === 2 && q.stack.footprints.length === 2) return true
  const round = (s: Spot) => s.stack.footprints.flatMap((f) => polygonOf(f, s.at, s.angle, MARGIN))
  return apart(hull(round(p)), hull(round(q)))
}

/** Gift wrapping. */
function hull(points: readonly Point[]): Polygon {
  const start = points.reduce((a, p) => (p.x < a.x || (p.x === a.x && p.y < a.y) ? p : a))
  const found: Point[] = []
  let at = start
  do {
    found.push(at)
    let next = points[0] === at ? points[1]! : points[0]!
    for (const p of points) {
      const cross = (next.x - at.x) * (p.y - at.y) - (next.y - at.y) * (p.x - at.x)
      const farther = Math.hypot(p.x - at.x, p.y - at.y) > Math.hypot(next.x - at.x, next.y - at.y)
      if (cross < -1e-12 || (Math.abs(cross) <= 1e-12 && farther)) next = p
    }
    at = next
  } while (at !== start && found.length <= points.length)
  return found
}

function canStand(job: Job, stack: GridStack, at: Point, angle: number, boltDiameter: number): boolean {
  const grown = hull(stack.footprints.flatMap((f) => polygonOf(f, at, angle, MARGIN)))
  const top = polygonOf({ circle: WASHER }, at, angle, MARGIN)
  const front = studLength(stack.height) - BEHIND
  return (
    standsClear(job, grown, at, 0, stack.height, boltDiameter) &&
    standsClear(job, top, at, stack.height, front, null)
  )
}

function standsClear(
  job: Job,
  grown: Polygon,
  at: Point,
  z0: number,
  z1: number,
  boltDiameter: number | null,
): boolean {
  const setup = job.setups[0]!
  const body = job.part.bodies[0]!
  if (!('outline' in body)) throw new Error('trials have one prism')
  const bottom = setup.packing + body.base
  const top = bottom + body.thickness
  const { lathe } = job
  const work = job.part.bores[0]!
  // A cut through: the bar's tip comes down to the part's back.
  const reach = lathe.barReach === null ? Infinity : bottom + lathe.barReach
  const limit = Math.min(
    job.plate.diameter / 2,
    lathe.swingOverBed / 2,
    z1 > reach ? lathe.swingOverCrossSlide / 2 : Infinity,
  )
  if (grown.some((p) => Math.hypot(p.x, p.y) > limit)) return false
  if (z1 > bottom) {
    const outline: Polygon =
      body.outline.length === 2
        ? polygonOf({ circle: body.outline[1]!.x - body.outline[0]!.x }, middle(body.outline), 0)
        : body.outline
    if (z0 < top && !apart(grown, outline)) return false
    if (boltDiameter && !apart(polygonOf({ circle: boltDiameter }, at, 0, MARGIN), outline)) return false
    if (!apart(grown, polygonOf({ circle: work.diameter }, { x: 0, y: 0 }, 0))) return false
  }
  return setup.hardware.every((h) => {
    if (!isBox(h) || !('x' in h.at)) throw new Error('trial hardware stands at points')
    const facing = h.facing ?? 0
    const clear =
      z1 <= h.base || z0 >= h.base + h.height || apart(grown, polygonOf(h.footprint, h.at, facing))
    if (!clear || h.kind !== 'press' || !('rect' in h.footprint) || z0 >= h.base) return clear
    // A heel will stand under its tail.
    const [length, width] = h.footprint.rect
    const back = -length / 4
    const a = (facing * Math.PI) / 180
    const tail = { x: h.at.x + back * Math.cos(a), y: h.at.y + back * Math.sin(a) }
    return apart(grown, polygonOf({ rect: [length / 2, width] }, tail, facing))
  })
}

const middle = (ring: readonly Point[]): Point => ({
  x: (ring[0]!.x + ring[1]!.x) / 2,
  y: (ring[0]!.y + ring[1]!.y) / 2,
})
