/**
 * The set-up from the operator's side (first angle: the view from the left stands at the right), z to the right.
 * Plate and part are cut by the upright plane through the axis; clamps, packing and weights are shown whole.
 */
import type { Point } from '../geometry/types.ts'
import { crossSlideReach } from '../checks/clearance.ts'
import { dimensionBox, linearDimension } from './dimension.ts'
import type { Primitive } from './model.ts'
import { boxAround } from './placer.ts'
import { box, line, text } from './primitives.ts'
import { extentY, sectionRanges } from './section.ts'
import { textWidth } from './textWidth.ts'
import { bedIsShown, bedRadius, dimensionText, type ViewInput } from './view.ts'

const SMALL = 2.5
/** Hatch spacing, sheet mm. */
const HATCH = 2.4

/** z range drawn, mm from the plate's face. */
export function sideRange({ job, mounted }: Pick<ViewInput, 'job' | 'mounted'>): {
  back: number
  front: number
} {
  const front = Math.max(mounted.partFront, ...mounted.pieces.map((p) => p.z1), 10)
  return { back: -job.plate.thickness, front }
}

export function sideView(input: ViewInput): Primitive[] {
  const { job, mounted, scale, origin, placer } = input
  const map = (z: number, y: number): Point => ({ x: origin.x + z * scale, y: origin.y + y * scale })
  const { plate } = job
  const { back, front } = sideRange(input)
  const rim = plate.diameter / 2
  const out: Primitive[] = []
  const slab = (z0: number, z1: number, y0: number, y1: number, hatch: 1 | -1) => {
    const a = map(z0, y0)
    out.push(box('outline', a.x, a.y, (z1 - z0) * scale, (y1 - y0) * scale, 'paper'))
    out.push(...hatching(a, map(z1, y1), hatch))
  }
  for (const piece of mounted.pieces) {
    const [y0, y1] = extentY({ outline: piece.footprint, holes: [] })
    const a = map(piece.z0, y0)
    out.push(box('outline-thin', a.x, a.y, (piece.z1 - piece.z0) * scale, (y1 - y0) * scale, 'paper'))
  }
  slab(-plate.thickness, 0, plate.bore / 2, rim, 1)
  slab(-plate.thickness, 0, -rim, -plate.bore / 2, 1)
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (body.effect !== 'adds') continue
    for (const region of regions) {
      const [y0, y1] = extentY(region)
      const a = map(z0, y0)
      out.push(box('outline-thin', a.x, a.y, (z1 - z0) * scale, (y1 - y0) * scale, 'paper'))
    }
  }
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (body.effect !== 'adds') continue
    for (const region of regions) for (const [y0, y1] of sectionRanges(region)) slab(z0, z1, y0, y1, -1)
  }
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (body.effect !== 'removes') continue
    for (const region of regions) {
      for (const [y0, y1] of sectionRanges(region)) {
        const a = map(z0, y0)
        out.push(box('outline-thin', a.x, a.y, (z1 - z0) * scale, (y1 - y0) * scale, 'paper'))
      }
    }
  }
  out.push(...bores(input, map))
  out.push(line('centre', map(back - 8 / scale, 0), map(front + 14 / scale, 0)))
  out.push(...floor(input, map, back, front))
  placer.block({ ...corner(map(back, -rim)), x1: map(front, 0).x, y1: map(0, rim).y })
  out.push(...widths(input, map, rim, front))
  return out
}

const corner = (p: Point) => ({ x0: p.x, y0: p.y })

/** 45° lines within a box. */
export function hatching(a: Point, b: Point, sense: 1 | -1): Primitive[] {
  const out: Primitive[] = []
  const w = b.x - a.x
  const h = b.y - a.y
  const step = HATCH * Math.SQRT2
  for (let d = step / 2; d < w + h; d += step) {
    // From the left or bottom side to the top or right one.
    const start = { x: Math.max(0, d - h), y: Math.min(d, h) }
    const end = { x: Math.min(d, w), y: Math.max(0, d - w) }
    const flip = (p: Point) => ({ x: a.x + p.x, y: sense === 1 ? b.y - p.y : a.y + p.y })
    out.push(line('hatch', flip(start), flip(end)))
  }
  return out
}

function bores({ mounted }: ViewInput, map: (z: number, y: number) => Point): Primitive[] {
  return mounted.bores.flatMap(({ bore, centre, z0, z1, state }) => {
    const layer = state === 'uncut' ? ('phantom' as const) : ('mark' as const)
    // Only bores that the section plane passes through.
    if (Math.abs(centre.x) > bore.diameter / 2) return []
    const half = Math.sqrt((bore.diameter / 2) ** 2 - centre.x ** 2)
    return [centre.y - half, centre.y + half].map((y) => line(layer, map(z0, y), map(z1, y)))
  })
}

/** Bed and, where the reach is known, the cross-slide with the tool at full depth. */
function floor(
  input: ViewInput,
  map: (z: number, y: number) => Point,
  back: number,
  front: number,
): Primitive[] {
  const { job, mounted, placer, scale } = input
  const out: Primitive[] = []
  const named = (z0: number, z1: number, radius: number, label: string) => {
    const a = map(z0, -radius)
    const b = map(z1, -radius)
    out.push(line('outline', a, b))
    for (let x = a.x + 2; x <= b.x; x += 4) out.push(line('hatch', { x, y: a.y }, { x: x - 2, y: a.y - 2 }))
    const width = textWidth(label, SMALL)
    const centre = { x: Math.max(a.x + width / 2, (a.x + b.x) / 2), y: a.y - 4 }
    const spot = placer.place(
      [0, -4, -8].map((dy) => ({ dy, box: boxAround({ x: centre.x, y: centre.y + dy }, width, SMALL + 1) })),
    )
    if (spot)
      out.push(text({ x: centre.x, y: centre.y + spot.dy - SMALL / 2 }, label, SMALL, { anchor: 'middle' }))
  }
  const bed = bedRadius(job)
  if (bedIsShown(job, input.analysis))
    named(back - 6 / scale, front + 12 / scale, bed.radius, `${bed.name} ${dimensionText(job, bed.radius)}`)
  const reach = crossSlideReach(mounted)
  if (reach !== null && reach < front + 12 / scale)
    named(reach, front + 14 / scale, job.lathe.swingOverCrossSlide / 2, 'cross-slide')
  return out
}

/** Packing, part and overall overhang from the plate's face, one above the other over the rim. */
function widths(
  input: ViewInput,
  map: (z: number, y: number) => Point,
  rim: number,
  front: number,
): Primitive[] {
  const { job, mounted, scale, placer } = input
  const top = map(0, rim).y
  const packing = mounted.setup.packing
  const rows: [number, number][] = [
    [0, packing],
    [packing, mounted.partFront],
    [0, front],
  ]
  const out: Primitive[] = []
  let lift = 6
  for (const [z0, z1] of rows) {
    if (z1 - z0 < 1e-6) continue
    const dimension = linearDimension({
      from: { x: map(z0, rim).x, y: top },
      to: { x: map(z1, rim).x, y: top },
      offset: lift,
      value: z1 - z0,
      scale,
      text: dimensionText(job, z1 - z0),
    })
    placer.block(dimensionBox(dimension))
    out.push(dimension)
    lift += 5.5
  }
  return out
}
