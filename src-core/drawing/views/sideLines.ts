/** The drawn lines of the side view: plate and part in section, hardware cut or beyond, bed and cross-slide. No labels. */
import { crossSlideReach } from '../../clearance/carriage.ts'
import { tipDepth } from '../../clearance/toolAtWork.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { MountedBore } from '../../mounting/types.ts'
import { isPrism } from '../../job/schema.ts'
import { NARROW_HATCH, WIDE_HATCH, hatching, ringSegments } from './hatching.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { line, polyline } from '../model/primitives.ts'
import { boreWalls, meshSection, partSection, plateSection, slab } from './section.ts'
import { standing, type Standing } from './standing.ts'
import { level } from './symbols.ts'
import { bedIsShown, bedRadius, type ViewInput } from './view.ts'

type Outline = 'outline' | 'outline-thin'

/** How far bed and axis are drawn past plate and front, sheet mm. */
const PAST = 10

export interface SideLines {
  readonly primitives: readonly PlainPrimitive[]
  /** Flat outlines, sheet mm, of what labels keep off. */
  readonly bodies: readonly (readonly Point[])[]
  readonly map: (z: number, y: number) => Point
  /** z of back and front of all that turns, mm. */
  readonly back: number
  readonly front: number
  readonly slide: CrossSlide
}

export interface CrossSlide {
  /** z at which it begins with the tool at full depth; null where the bar's reach is not given. */
  readonly from: number | null
  readonly tip: number
  /** mm below the axis. */
  readonly level: number
  readonly drawn: boolean
}

/** z of back and front of all that turns, mm from the plate's face. */
export function sideRange({ job, mounted }: Pick<ViewInput, 'job' | 'mounted'>): {
  back: number
  front: number
} {
  return {
    back: -job.plate.thickness,
    front: Math.max(mounted.partFront, ...mounted.pieces.flatMap((p) => p.solids.map((s) => s.z1)), 0),
  }
}

export function sideLines(input: ViewInput): SideLines {
  const { job, mounted, analysis, scale, origin } = input
  const map = (z: number, y: number): Point => ({ x: origin.x + z * scale, y: origin.y + y * scale })
  const { back, front } = sideRange(input)
  const out: PlainPrimitive[] = []
  const bodies: Point[][] = []
  const whole = (layer: Outline, outlines: readonly (readonly Point[])[]) => {
    for (const outline of outlines) {
      const ring = outline.map((p) => map(p.x, p.y))
      bodies.push(ring)
      out.push(polyline(layer, ring, true, 'paper'))
    }
  }
  const cut = (rings: readonly (readonly Point[])[], sense: 1 | -1, spacing: number, layer: Outline) => {
    const placed = rings.map((ring) => ring.map((p) => map(p.x, p.y)))
    out.push(...hatching(ringSegments(placed), sense, spacing))
    for (const ring of placed) out.push(polyline(layer, ring, true))
  }
  const { beyond, sliced, uncut, before } = standing(mounted)
  let turned = false
  for (const s of beyond) whole(s.layer, outlinesOf(s))
  whole('outline', [slab(back, 0, -job.plate.diameter / 2, job.plate.diameter / 2)])
  cut(plateSection(job.plate), 1, WIDE_HATCH, 'outline')
  const { solid, ground } = partSection(mounted)
  for (const ring of ground)
    out.push(
      polyline(
        'ground',
        ring.map((p) => map(p.x, p.y)),
        true,
        'paper',
      ),
    )
  cut(solid, -1, WIDE_HATCH, 'outline')
  if (mounted.bodies.some((b) => !isPrism(b.body))) {
    const segments = meshSection(mounted).map(({ a, b }) => ({ a: map(a.x, a.y), b: map(b.x, b.y) }))
    out.push(...hatching(segments, -1, WIDE_HATCH), ...segments.map((s) => line('outline', s.a, s.b)))
  }
  for (const [i, piece] of sliced.entries()) {
    const { z0, role } = piece
    whole('outline-thin', outlinesOf(piece))
    // A weight on another is hatched the other way.
    const lower = sliced[i - 1]
    const isUpon = role === 'weight' && lower?.role === role && Math.abs(lower.z1 - z0) < TOLERANCE.height
    turned = isUpon ? !turned : role === 'strap'
    cut(outlinesOf(piece), turned ? 1 : -1, NARROW_HATCH, 'outline-thin')
  }
  for (const s of uncut) whole('outline-thin', outlinesOf(s))
  for (const bore of mounted.bores) out.push(...boreLines(bore, map))
  for (const outline of before.flatMap(outlinesOf))
    out.push(
      polyline(
        'phantom',
        outline.map((p) => map(p.x, p.y)),
        true,
      ),
    )
  out.push(line('centre', map(back - PAST / scale, 0), map(front + PAST / scale, 0)))
  if (bedIsShown(job, analysis)) {
    const { y } = map(0, -bedRadius(job).radius)
    out.push(...level(map(back, 0).x - PAST / 2, map(front, 0).x + PAST, y))
  }
  const slide = crossSlide(input)
  if (slide.drawn) {
    const from = map(slide.from ?? 0, -slide.level)
    const to = Math.min(input.area.x1 - 2, Math.max(map(front, 0).x + PAST, from.x + PAST))
    if (slide.from === null) out.push(line('phantom', from, { x: to, y: from.y }))
    else {
      out.push(...level(from.x, to, from.y))
      out.push(line('outline', from, { x: from.x, y: from.y - 5 }))
    }
  }
  return { primitives: out, bodies, map, back, front, slide }
}

/** x is z. */
const outlinesOf = ({ z0, z1, y, outlines }: Standing) => outlines ?? [slab(z0, z1, ...y)]

/** A bore as it is when it is finished, with what is there before the cut; one left for later is only hinted at. */
function boreLines(bore: MountedBore, map: (z: number, y: number) => Point): PlainPrimitive[] {
  const walls = boreWalls(bore)
  if (!walls) return []
  const { z0, z1, state } = bore
  if (state === 'uncut') {
    const along = walls.map((y) => line('phantom', map(z0, y), map(z1, y)))
    return bore.through ? along : [...along, line('phantom', map(z0, walls[0]), map(z0, walls[1]))]
  }
  const ends = [z0, z1].map((z) => line('outline', map(z, walls[0]), map(z, walls[1])))
  const there = state === 'to cut' && bore.bore.start > 0 ? boreWalls(bore, bore.bore.start) : null
  return [...ends, ...(there ?? []).map((y) => line('phantom', map(z0, y), map(z1, y)))]
}

/** Drawn where it comes within the view's own ground; with the reach unknown its level alone. */
export function crossSlide(input: ViewInput): CrossSlide {
  const { job, mounted, scale, origin, area } = input
  const { front } = sideRange(input)
  const from = crossSlideReach(mounted)
  const level = job.lathe.swingOverCrossSlide / 2
  const inside =
    origin.x + (from ?? 0) * scale + PAST <= area.x1 - 2 &&
    (from ?? 0) <= front + 40 / scale &&
    origin.y - level * scale >= area.y0 + 6
  return { from, tip: tipDepth(mounted), level, drawn: inside }
}
