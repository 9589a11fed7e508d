/** The plate as seen from the tailstock, with everything on it. */
import type { Point, Ring } from '../geometry/types.ts'
import type { Slot } from '../job/schema.ts'
import { polar } from '../mounting/hardware.ts'
import type { MountedPiece } from '../mounting/types.ts'
import { clockPosition, plain } from '../units/format.ts'
import { dimensionBox, linearDimension } from './dimension.ts'
import type { Primitive } from './model.ts'
import { boxAround, type LabelBox } from './placer.ts'
import { arrowhead, circle, line, polyline, ringsPath, text } from './primitives.ts'
import { textWidth } from './textWidth.ts'
import { bedIsShown, bedRadius, centreBefore, dimensionText, largestSwing, type ViewInput } from './view.ts'

const BALLOON = 3.3
const SMALL = 2.5

export function frontView(input: ViewInput): Primitive[] {
  const { job, mounted, analysis, scale, origin, placer } = input
  const map = (p: Point): Point => ({ x: origin.x + p.x * scale, y: origin.y + p.y * scale })
  const { plate } = job
  const rim = (plate.diameter / 2) * scale
  const swing = largestSwing(analysis, plate.diameter) * scale
  const out: Primitive[] = []
  out.push(circle('outline', origin, rim), circle('outline', origin, (plate.bore / 2) * scale))
  for (const slot of plate.slots) out.push(ringsPath('outline-thin', [slotRing(slot)], map))
  for (const hole of plate.holes) out.push(circle('outline-thin', map(hole), (hole.diameter / 2) * scale))
  const under = mounted.pieces.filter((p) => p.z1 <= mounted.setup.packing + 1e-6)
  const over = mounted.pieces.filter((p) => p.z1 > mounted.setup.packing + 1e-6)
  for (const { body, regions } of mounted.bodies) {
    for (const region of regions) {
      const rings = [region.outline, ...region.holes]
      const adds = body.effect === 'adds'
      out.push(ringsPath(adds ? 'outline' : 'outline-thin', rings, map, adds ? 'tint' : 'none'))
    }
  }
  for (const piece of under) out.push(ringsPath('hidden', [piece.footprint], map))
  for (const { bore, centre, state } of mounted.bores) {
    out.push(circle(state === 'uncut' ? 'phantom' : 'mark', map(centre), (bore.diameter / 2) * scale))
    out.push(...centreMark(map(centre), (bore.diameter / 2) * scale))
  }
  for (const piece of over) out.push(ringsPath('outline-thin', [piece.footprint], map, 'paper'))
  for (const piece of over)
    if (piece.bolt) out.push(circle('outline-thin', map(piece.bolt.at), (piece.bolt.diameter / 2) * scale))
  out.push(...axisLines(origin, rim))
  if (swing > rim + 0.1) out.push(circle('phantom', origin, swing))
  for (let a = 0; a < 360; a += 15) {
    // The rim itself is kept clear of labels.
    placer.block(boxAround(map(polar(plate.diameter / 2, a)), 3, 3))
  }
  out.push(...bedLine(input, swing))
  out.push(...heavySide(input, map, rim))
  out.push(...slotNames(input, rim))
  out.push(...boreDimensions(input, map))
  out.push(...balloons(input, map, Math.max(rim, swing)))
  out.push(...tightest(input, map))
  out.push(...massCentres(input, map))
  return out
}

/** A slot as a ring with rounded ends, plate frame. */
export function slotRing(slot: Slot): Ring {
  const half = slot.width / 2
  const at = (radius: number, across: number): Point => {
    const along = polar(radius, slot.angle)
    const side = polar(across, slot.angle + 90)
    return { x: along.x + side.x, y: along.y + side.y }
  }
  return [
    { ...at(slot.from, -half), bulge: 0 },
    { ...at(slot.to, -half), bulge: 1 },
    { ...at(slot.to, half), bulge: 0 },
    { ...at(slot.from, half), bulge: 1 },
  ]
}

function centreMark(at: Point, radius: number): Primitive[] {
  const reach = radius + 2.5
  return [
    line('centre', { x: at.x - reach, y: at.y }, { x: at.x + reach, y: at.y }),
    line('centre', { x: at.x, y: at.y - reach }, { x: at.x, y: at.y + reach }),
  ]
}

const axisLines = (o: Point, rim: number): Primitive[] => [
  line('centre', { x: o.x - rim - 4, y: o.y }, { x: o.x + rim + 4, y: o.y }),
  line('centre', { x: o.x, y: o.y - rim - 4 }, { x: o.x, y: o.y + rim + 4 }),
]

function bedLine({ job, analysis, scale, origin, placer }: ViewInput, swing: number): Primitive[] {
  const bed = bedRadius(job)
  const shown = bedIsShown(job, analysis)
  const y = shown ? origin.y - bed.radius * scale : origin.y - swing - 4
  const reach = swing + 10
  const label = `${bed.name}, ${dimensionText(job, bed.radius)} below the axis${shown ? '' : ' (not shown)'}`
  const width = textWidth(label, SMALL)
  const below = { x: origin.x + reach - width / 2, y: y - 4.2 }
  const spot = placer.place([{ box: boxAround(below, width, SMALL + 1) }])
  const out: Primitive[] = []
  if (spot) out.push(text({ x: below.x, y: below.y - SMALL / 2 }, label, SMALL, { anchor: 'middle' }))
  if (!shown) return out
  out.push(line('outline', { x: origin.x - reach, y }, { x: origin.x + reach, y }))
  for (let x = origin.x - reach; x < origin.x + reach - 1; x += 4)
    out.push(line('hatch', { x: x + 2, y }, { x, y: y - 2 }))
  placer.block({ x0: origin.x - reach, x1: origin.x + reach, y0: y - 2, y1: y + 0.5 })
  return out
}

/** Slot names outside the rim; the first slot is the index and carries a filled mark. */
function slotNames({ job, origin, scale, placer }: ViewInput, rim: number): Primitive[] {
  const out: Primitive[] = []
  job.plate.slots.forEach((slot, i) => {
    const width = textWidth(slot.id, SMALL, true)
    const at = (radius: number, angle: number) => {
      const p = polar(radius, angle)
      const centre = { x: origin.x + p.x, y: origin.y + p.y }
      return { at: centre, box: boxAround(centre, width, SMALL) }
    }
    // Beside the slot's line outside the rim, clear of the centre lines; else within the rim beside the slot.
    const aside = (Math.atan2(3.4, rim + 5) * 180) / Math.PI
    const candidates = [1, -1, 2, -2].flatMap((k) =>
      [4, 6].map((away) => at(rim + away, slot.angle + k * aside)),
    )
    for (const k of [1, -1])
      candidates.push(
        at(
          slot.to * scale,
          slot.angle + k * ((slot.width * scale * 0.5 + 3.4) / (slot.to * scale)) * (180 / Math.PI),
        ),
      )
    const spot = placer.place(candidates)
    if (spot)
      out.push(
        text({ x: spot.at.x, y: spot.at.y - SMALL / 2 }, slot.id, SMALL, { anchor: 'middle', bold: true }),
      )
    if (i === 0) {
      const tip = polar(rim, slot.angle)
      out.push(
        arrowhead(
          'mark',
          { x: origin.x + tip.x, y: origin.y + tip.y },
          ((slot.angle + 180) * Math.PI) / 180,
          3,
        ),
      )
    }
  })
  return out
}

function heavySide(
  { analysis, origin, placer }: ViewInput,
  map: (p: Point) => Point,
  rim: number,
): Primitive[] {
  const { static_g_mm: size, static_angle_deg: angle } = analysis.unbalance
  if (size < 1) return []
  const direction = (angle * Math.PI) / 180
  const tip = {
    x: origin.x + Math.cos(direction) * rim * 0.93,
    y: origin.y + Math.sin(direction) * rim * 0.93,
  }
  const start = {
    x: origin.x + Math.cos(direction) * rim * 0.62,
    y: origin.y + Math.sin(direction) * rim * 0.62,
  }
  const words = ['HEAVY SIDE', `${plain(angle, 0)}° (${clockPosition(angle)})`]
  const width = Math.max(...words.map((w) => textWidth(w, SMALL, true)))
  const height = 2 * SMALL + 1.6
  const candidates = []
  for (const away of [3, 7, 12, 17, 22, 27]) {
    for (const turn of [0, 4, -4, 8, -8, 12, -12, 17, -17, 23, -23, 30, -30, 38, -38, 47, -47]) {
      const a = direction + (turn * Math.PI) / 180
      const centre = {
        x: origin.x + Math.cos(a) * (rim + away + width / 2),
        y: origin.y + Math.sin(a) * (rim + away + height / 2),
      }
      candidates.push({ centre, box: boxAround(centre, width, height) })
    }
  }
  const spot = placer.place(candidates)
  const out: Primitive[] = [
    line('caution', map({ x: 0, y: 0 }), start),
    line('caution', start, tip),
    arrowhead('caution', tip, direction, 5),
  ]
  if (!spot) return out
  const { centre } = spot
  out.push(line('caution', tip, nearestOnBox(spot.box, tip)))
  words.forEach((word, i) => {
    const y = centre.y + (i === 0 ? 0.8 : -0.8 - SMALL)
    out.push(text({ x: centre.x, y }, word, SMALL, { anchor: 'middle', bold: true, layer: 'caution' }))
  })
  return out
}

const nearestOnBox = (b: LabelBox, p: Point): Point => ({
  x: Math.max(b.x0 - 0.6, Math.min(b.x1 + 0.6, p.x)),
  y: Math.max(b.y0 - 0.6, Math.min(b.y1 + 0.6, p.y)),
})

/** Where the part sits: from the spindle axis to each of its other bores. */
function boreDimensions({ job, mounted, scale, placer }: ViewInput, map: (p: Point) => Point): Primitive[] {
  return mounted.bores.flatMap(({ centre }) => {
    const distance = Math.hypot(centre.x, centre.y)
    if (distance * scale < 6) return []
    const candidates = [10, -10, 16, -16, 22, -22].map((offset) => {
      const dimension = linearDimension({
        from: map({ x: 0, y: 0 }),
        to: map(centre),
        offset,
        value: distance,
        scale,
        text: dimensionText(job, distance),
      })
      return { dimension, box: dimensionBox(dimension) }
    })
    const spot = placer.place(candidates)
    return spot ? [spot.dimension] : []
  })
}

/** Numbered balloons around the plate with leaders to their pieces, and the radius of each station. */
function balloons(
  { job, mounted, origin, placer }: ViewInput,
  map: (p: Point) => Point,
  outer: number,
): Primitive[] {
  return mounted.pieces.flatMap((piece, i) => {
    const at = map(piece.at)
    const home = Math.atan2(at.y - origin.y, at.x - origin.x)
    const radius = stationRadius(piece)
    const label = radius === null ? '' : `R${dimensionText(job, radius)}`
    const width = label ? textWidth(label, SMALL) : 0
    const candidates = []
    for (const away of [9, 17, 25]) {
      for (const turn of [0, 6, -6, 12, -12, 18, -18, 25, -25, 33, -33, 42, -42, 52, -52]) {
        const a = home + (turn * Math.PI) / 180
        const centre = {
          x: origin.x + Math.cos(a) * (outer + away),
          y: origin.y + Math.sin(a) * (outer + away),
        }
        const right = Math.cos(a) >= 0
        const box = {
          x0: centre.x - BALLOON - (right ? 0 : width + 1),
          x1: centre.x + BALLOON + (right ? width + 1 : 0),
          y0: centre.y - BALLOON,
          y1: centre.y + BALLOON,
        }
        candidates.push({ centre, right, box })
      }
    }
    const spot = placer.place(candidates)
    if (!spot) return []
    const { centre, right } = spot
    const lead = Math.atan2(at.y - centre.y, at.x - centre.x)
    const from = { x: centre.x + Math.cos(lead) * BALLOON, y: centre.y + Math.sin(lead) * BALLOON }
    const out: Primitive[] = [
      line('dimension', from, at),
      circle('mark', at, 0.6, 'solid'),
      circle('outline-thin', centre, BALLOON, 'paper'),
      text({ x: centre.x, y: centre.y - SMALL / 2 }, String(i + 1), SMALL, { anchor: 'middle', bold: true }),
    ]
    if (label) {
      const x = right ? centre.x + BALLOON + 1 : centre.x - BALLOON - 1
      out.push(text({ x, y: centre.y - SMALL / 2 }, label, SMALL, { anchor: right ? 'start' : 'end' }))
    }
    return out
  })
}

/** Radius of the station from the spindle axis, mm; null for loose packing. */
export function stationRadius(piece: MountedPiece): number | null {
  return piece.item.kind === 'packing' ? null : Math.hypot(piece.at.x, piece.at.y)
}

function tightest({ job, analysis, placer, origin }: ViewInput, map: (p: Point) => Point): Primitive[] {
  const c = analysis.clearances[0]
  if (!c) return []
  const at = map(c.corner)
  const words = `${c.item} clears the ${c.against} by ${dimensionText(job, c.clearance_mm)}`
  const shown =
    c.clearance_mm < 0 ? `${c.item} FOULS the ${c.against} by ${dimensionText(job, -c.clearance_mm)}` : words
  const width = textWidth(shown, SMALL)
  const candidates = []
  const home = Math.atan2(at.y - origin.y, at.x - origin.x)
  const far = Math.hypot(at.x - origin.x, at.y - origin.y)
  for (const away of [8, 14, 20, 26, 32]) {
    for (const turn of [0, 8, -8, 16, -16, 24, -24, 34, -34, 46, -46, 60, -60]) {
      const a = home + (turn * Math.PI) / 180
      const x = origin.x + Math.cos(a) * (far + away)
      const centre = {
        x: x + Math.sign(Math.cos(a)) * (width / 2 + 0.8),
        y: origin.y + Math.sin(a) * (far + away),
      }
      candidates.push({ centre, near: { x, y: centre.y }, box: boxAround(centre, width, SMALL + 1) })
    }
  }
  const spot = placer.place(candidates)
  const out: Primitive[] = [circle('caution', at, 1.6), circle('caution', at, 0.5, 'solid')]
  if (spot) {
    out.push(line('dimension', at, spot.near))
    out.push(text({ x: spot.centre.x, y: spot.centre.y - SMALL / 2 }, shown, SMALL, { anchor: 'middle' }))
  }
  return out
}

/** Centre of mass after the counterweights (quartered disc) and before them (open ring with a cross). */
function massCentres({ mounted, analysis }: ViewInput, map: (p: Point) => Point): Primitive[] {
  const [x, y] = analysis.assembly.centroid_mm
  const before = centreBefore(mounted, analysis)
  return [...(before ? openCentre(map(before)) : []), ...quarteredDisc(map({ x, y }))]
}

export function quarteredDisc(at: Point, r = 2.2): Primitive[] {
  const quarter = (start: number): Primitive => {
    const a = (start * Math.PI) / 2
    const p = { x: at.x + Math.cos(a) * r, y: at.y + Math.sin(a) * r }
    const q = { x: at.x + Math.cos(a + Math.PI / 2) * r, y: at.y + Math.sin(a + Math.PI / 2) * r }
    return {
      kind: 'path',
      layer: 'mark',
      fill: 'solid',
      steps: [
        { to: 'move', x: at.x, y: at.y },
        { to: 'line', x: p.x, y: p.y },
        { to: 'arc', x: q.x, y: q.y, bulge: Math.tan(Math.PI / 8) },
        { to: 'close' },
      ],
    }
  }
  return [circle('mark', at, r, 'paper'), quarter(0), quarter(2)]
}

export function openCentre(at: Point, r = 2.2): Primitive[] {
  return [
    circle('mark', at, r),
    polyline('mark', [
      { x: at.x - r, y: at.y },
      { x: at.x + r, y: at.y },
    ]),
    polyline('mark', [
      { x: at.x, y: at.y - r },
      { x: at.x, y: at.y + r },
    ]),
  ]
}
