/**
 * A paper template of the plate at 1:1: laid on the plate's face and pricked through at the crosses, it gives the place
 * of the axis, of every bore and of every station. Over as many sheets as the paper needs, with crop marks, the names of
 * the neighbours and a 100 mm check line each way.
 */
import { KIND_WORDS } from '../../hardware/words.ts'
import { angleOf, toDegrees, toRadians } from '../../geometry/angles.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { Job, Setup } from '../../job/schema.ts'
import { findSetup, mountSetup } from '../../mounting/mount.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { Mounted } from '../../mounting/types.ts'
import { around, noteCandidates } from '../views/callouts.ts'
import { checkLine } from '../sheet/frame.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Drawing, PlainPrimitive } from '../model/model.ts'
import { PRECEDENCE } from '../../words/cautions.ts'
import { plainParts } from '../model/plain.ts'
import { InkMap } from '../placing/inkMap.ts'
import { placeLabels, type Label } from '../placing/placeLabels.ts'
import { box, circle, line, ringsPath, text } from '../model/primitives.ts'
import type { SheetName } from '../sheet/sheetSizes.ts'
import { indexMark } from '../views/symbols.ts'
import { fitText, textWidth, wrapText } from '../text/textWidth.ts'
import { dimensionText, stationRadius } from '../views/view.ts'
import { angleText, indexAngle } from '../../mounting/plateAngle.ts'
import { clipTo } from './clip.ts'
import { tileName, tilePlate, type Tiling } from './tiles.ts'

/** Beyond the rim: index mark and centre lines. */
const BEYOND = 8
const CROSS = 5

/**
 * One drawing a sheet, from the upper left across. Plate frame at full size, seen as one stands before the plate.
 *
 * @throws RangeError on an unknown setup, and where the plate takes more than 100 sheets
 */
export function plateTemplate(job: Job, setupId: string, paper: SheetName = 'A4'): Drawing[] {
  const setup = findSetup(job, setupId)
  const mounted = mountSetup(job, setupId)
  const tiling = tilePlate(job.plate.diameter / 2 + BEYOND, paper)
  const lines = plateLines(mounted)
  const whole = [...lines, ...labels(mounted, tiling, lines)]
  const drawings: Drawing[] = []
  for (let row = 0; row < tiling.rows; row++) {
    for (let column = 0; column < tiling.columns; column++)
      drawings.push(sheet({ job, setup, tiling, column, row, whole }))
  }
  return drawings
}

/** Everything to be pricked or recognised, plate frame, mm. */
function plateLines(mounted: Mounted): PlainPrimitive[] {
  const { plate } = mounted.job
  const rim = plate.diameter / 2
  const same = (p: Point): Point => p
  const out: PlainPrimitive[] = [
    circle('outline', { x: 0, y: 0 }, rim),
    circle('outline-thin', { x: 0, y: 0 }, plate.bore / 2),
    line('centre', { x: -rim - 4, y: 0 }, { x: rim + 4, y: 0 }),
    line('centre', { x: 0, y: -rim - 4 }, { x: 0, y: rim + 4 }),
    ...plate.slots.map((slot) => ringsPath('outline-thin', [slotRing(slot)], same)),
    ...plate.holes.map((hole) => circle('outline-thin', hole, hole.diameter / 2)),
  ]
  for (const { body, regions } of mounted.bodies)
    if (body.effect === 'adds')
      for (const r of regions) out.push(ringsPath('phantom', [r.outline, ...r.holes], same))
  for (const piece of mounted.pieces) out.push(ringsPath('hidden', [piece.footprint], same))
  out.push(...prick({ x: 0, y: 0 }))
  for (const { bore, centre } of mounted.bores) {
    out.push(circle('mark', centre, bore.diameter / 2))
    if (Math.hypot(centre.x, centre.y) > TOLERANCE.coincident) out.push(...prick(centre))
  }
  for (const piece of mounted.pieces) out.push(...prick(piece.at))
  if (plate.slots.length > 0) {
    const a = toRadians(indexAngle(mounted.job))
    out.push(indexMark({ x: rim * Math.cos(a), y: rim * Math.sin(a) }, a))
  }
  return out
}

/** A cross in a small circle; the point to prick is left open. */
function prick(at: Point): PlainPrimitive[] {
  const arms = [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const
  return [
    circle('mark', at, 2),
    ...arms.map(([x, y]) =>
      line('mark', { x: at.x + 0.6 * x, y: at.y + 0.6 * y }, { x: at.x + CROSS * x, y: at.y + CROSS * y }),
    ),
  ]
}

/** Names of slots, bores and stations, clear of lines and cuts. */
function labels(mounted: Mounted, tiling: Tiling, lines: readonly PlainPrimitive[]): PlainPrimitive[] {
  const { job } = mounted
  const wanted: Label[] = []
  const name = (at: Point, words: readonly string[], bold: boolean) => {
    const half = Math.max(...words.map((w) => textWidth(w, LETTERING.read, bold))) / 2
    const home = angleOf(at)
    const places = [10, 15, 22, 30, 42, 56, 75].flatMap((d, i) =>
      [0, 60, -60, 120, -120, 180].flatMap((turn) =>
        around(at, home + toRadians(turn), [d]).map((p) => ({
          at: { x: p.at.x + Math.cos(p.direction) * half, y: p.at.y },
          cost: p.cost + i,
        })),
      ),
    )
    const height = LETTERING.read
    wanted.push({
      id: words.join(' '),
      candidates: noteCandidates({ lines: words, height, bold, target: at, short: 2.6, places }),
    })
  }
  for (const { bore, centre } of mounted.bores) name(centre, [`bore ${bore.id}`], true)
  mounted.pieces.forEach((piece, i) => {
    const radius = stationRadius(piece) ?? Math.hypot(piece.at.x, piece.at.y)
    const degrees = toDegrees(angleOf(piece.at))
    const words = `${i + 1} ${fitText(piece.item.name || KIND_WORDS[piece.item.kind], LETTERING.read, 60)}`
    name(piece.at, [words, `R${dimensionText(job, radius)}, ${angleText(job, degrees)}`], false)
  })
  for (const slot of job.plate.slots) {
    const a = toRadians(slot.angle)
    const at = (r: number): Point => ({ x: r * Math.cos(a), y: r * Math.sin(a) })
    const steps = [slot.to + slot.width, (slot.from + slot.to) / 2, slot.from - slot.width, slot.to - 8]
    const places = [...steps, job.plate.diameter / 2 + 6].flatMap((r, i) =>
      [0, 0.7, -0.7, 1, -1, 1.6, -1.6, 2.4, -2.4].map((k) => {
        const across = k * (slot.width + 2)
        return {
          at: { x: at(r).x - Math.sin(a) * across, y: at(r).y + Math.cos(a) * across },
          cost: 2 * i + Math.abs(k),
        }
      }),
    )
    const candidates = noteCandidates({
      lines: [slot.id],
      height: LETTERING.read,
      bold: true,
      target: null,
      places,
    })
    wanted.push({ id: slot.id, candidates })
  }
  const ink = new InkMap({
    x0: tiling.origin.x,
    y0: tiling.origin.y,
    x1: tiling.origin.x + tiling.columns * (tiling.tile.x1 - tiling.tile.x0),
    y1: tiling.origin.y + tiling.rows * (tiling.tile.y1 - tiling.tile.y0),
  })
  ink.addLines([...lines, ...cuts(tiling)])
  return plainParts(placeLabels(wanted, ink).primitives)
}

/** The lines along which the tiles meet, plate frame. */
function cuts({ tile, columns, rows, origin }: Tiling): PlainPrimitive[] {
  const across = tile.x1 - tile.x0
  const up = tile.y1 - tile.y0
  const out: PlainPrimitive[] = []
  for (let c = 0; c < columns; c++) {
    for (let r = 0; r < rows; r++)
      out.push(box('outline-thin', origin.x + c * across, origin.y + r * up, across, up))
  }
  return out
}

interface SheetInput {
  readonly job: Job
  readonly setup: Setup
  readonly tiling: Tiling
  readonly column: number
  readonly row: number
  readonly whole: readonly PlainPrimitive[]
}

function sheet({ job, setup, tiling, column, row, whole }: SheetInput): Drawing {
  const { paper, tile, columns, rows, origin } = tiling
  const dx = tile.x0 - origin.x - column * (tile.x1 - tile.x0)
  const dy = tile.y0 - origin.y - (rows - 1 - row) * (tile.y1 - tile.y0)
  const name = tileName(column, row)
  const stem = job.partNumber || job.title || job.part.name
  const title = `${stem} ${setup.id}, plate template ${name}`
  const width = tile.x1 - tile.x0
  const first = fitText(
    `${title}, ${row * columns + column + 1} of ${rows * columns}, scale 1:1`,
    LETTERING.read,
    width,
    true,
  )
  const second =
    'Cut along the frame and butt the sheets; this side out, as seen from the tailstock. Prick through at the crosses.'
  const notes = [...wrapText(second, LETTERING.note, width), ...wrapText(PRECEDENCE, LETTERING.note, width)]
  const foot = tile.y0 - 7
  return {
    title,
    width: paper.width,
    height: paper.height,
    primitives: [
      ...clipTo(
        whole.map((p) => moved(p, dx, dy)),
        tile,
      ),
      box('outline-thin', tile.x0, tile.y0, width, tile.y1 - tile.y0),
      ...cropMarks(tiling),
      ...neighbours(tiling, column, row),
      text({ x: tile.x0, y: foot - 3.5 }, first, LETTERING.read, { bold: true }),
      ...notes.map((words, i) => text({ x: tile.x0, y: foot - 8 - 3.8 * i }, words, LETTERING.note)),
      ...checkLines(tiling),
    ],
  }
}

function moved(p: PlainPrimitive, dx: number, dy: number): PlainPrimitive {
  switch (p.kind) {
    case 'path':
      return {
        ...p,
        steps: p.steps.map((s) => (s.to === 'close' ? s : { ...s, x: s.x + dx, y: s.y + dy })),
      }
    case 'circle':
      return { ...p, centre: { x: p.centre.x + dx, y: p.centre.y + dy } }
    case 'text':
      return { ...p, at: { x: p.at.x + dx, y: p.at.y + dy } }
  }
}

/** Short lines outside each corner of the tile, in line with its edges. */
function cropMarks({ tile }: Tiling): PlainPrimitive[] {
  return ([1, -1] as const).flatMap((sx) =>
    ([1, -1] as const).flatMap((sy) => {
      const x = sx === 1 ? tile.x1 : tile.x0
      const y = sy === 1 ? tile.y1 : tile.y0
      return [
        line('outline-thin', { x: x + sx * 1.5, y }, { x: x + sx * 5.5, y }),
        line('outline-thin', { x, y: y + sy * 1.5 }, { x, y: y + sy * 5.5 }),
      ]
    }),
  )
}

/** Which tile joins at each edge. */
function neighbours({ tile, columns, rows }: Tiling, column: number, row: number): PlainPrimitive[] {
  const cx = (tile.x0 + tile.x1) / 2
  const cy = (tile.y0 + tile.y1) / 2
  const sides: readonly [number, number, Point, number][] = [
    [-1, 0, { x: tile.x0 - 2, y: cy }, 90],
    [1, 0, { x: tile.x1 + 2 + LETTERING.note, y: cy }, 90],
    [0, -1, { x: cx, y: tile.y1 + 2 }, 0],
    [0, 1, { x: cx, y: tile.y0 - 2 - LETTERING.note }, 0],
  ]
  return sides.flatMap(([dc, dr, at, angle]) => {
    const c = column + dc
    const r = row + dr
    if (c < 0 || r < 0 || c >= columns || r >= rows) return []
    return [text(at, `joins ${tileName(c, r)}`, LETTERING.note, { anchor: 'middle', angle })]
  })
}

/** Printers stretch the two directions differently, so there is a line each way. */
function checkLines({ tile, paper }: Tiling): PlainPrimitive[] {
  const x = paper.width - 6.5
  const y = tile.y0
  const up: PlainPrimitive[] = [line('outline-thin', { x, y }, { x, y: y + 100 })]
  for (let i = 0; i <= 10; i++)
    up.push(line('outline-thin', { x, y: y + 10 * i }, { x: x + (i % 5 === 0 ? 2.4 : 1.4), y: y + 10 * i }))
  up.push(text({ x: x - 1, y: y + 102 }, '100 mm', LETTERING.note, { angle: 90, anchor: 'start' }))
  return [...checkLine(tile.x0, 6), ...up]
}
