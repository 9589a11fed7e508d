/**
 * A paper template of the plate at 1:1: laid on the plate's face and pricked through at the crosses, it gives the place
 * of the axis, of every bore and of every station. Over as many sheets as the paper needs, each of which shows the edge of the next.
 */
import { KIND_WORDS } from '../../hardware/words.ts'
import { angleOf, toDegrees, toRadians } from '../../geometry/angles.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { Job, Setup } from '../../job/schema.ts'
import { checkSum } from '../../job/checkSum.ts'
import { findSetup, mountSetup } from '../../mounting/mount.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { Mounted, MountedPiece } from '../../mounting/types.ts'
import { holeLabels } from '../views/frontLabels.ts'
import { around, noteCandidates } from '../views/callouts.ts'
import { lastRevision } from '../sheet/revisionList.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Drawing, PlainPrimitive } from '../model/model.ts'
import { plainParts } from '../model/plain.ts'
import { InkMap } from '../placing/inkMap.ts'
import { placeLabels, type Label } from '../placing/placeLabels.ts'
import { box, circle, line, ringsPath } from '../model/primitives.ts'
import type { SheetName } from '../sheet/sheetSizes.ts'
import { indexMark } from '../views/symbols.ts'
import { fitText, textWidth } from '../text/textWidth.ts'
import { dimensionText, stationRadius } from '../views/view.ts'
import { angleText, indexAngle } from '../../mounting/plateAngle.ts'
import { templateSheet } from './templateSheet.ts'
import { tilePlate, type Tiling } from './tiles.ts'

/** What the sheets say of their issue; what is left out is the job's own. */
export interface TemplateIssue {
  readonly revision?: string
  /** As it is to be printed; the core reads no clock. */
  readonly date?: string
}

/** Beyond the rim: index mark and centre lines. */
const BEYOND = 8
const CROSS = 5

/**
 * One drawing a sheet, from the upper left across. Plate frame at full size, seen as one stands before the plate.
 *
 * @throws RangeError on an unknown setup, and where the plate takes more than 100 sheets
 */
export function plateTemplate(
  job: Job,
  setupId: string,
  paper: SheetName = 'A4',
  given: TemplateIssue = {},
): Drawing[] {
  const setup = findSetup(job, setupId)
  const mounted = mountSetup(job, setupId)
  const tiling = tilePlate(job.plate.diameter / 2 + BEYOND, paper)
  const lines = plateLines(mounted)
  const crosses = prickPoints(mounted).flatMap(prick)
  const marks = [...crosses, ...labels(mounted, tiling, [...lines, ...crosses])]
  const title = `${job.partNumber || job.title || job.part.name} ${setup.id}`
  const issue = issueWords(job, setup, given)
  const drawings: Drawing[] = []
  for (let row = 0; row < tiling.rows; row++) {
    for (let column = 0; column < tiling.columns; column++)
      drawings.push(
        templateSheet({ tiling, column, row, units: job.displayUnits, title, issue, lines, marks }),
      )
  }
  return drawings
}

/** As on the setup drawing, so that the two are known to belong together. */
function issueWords(job: Job, setup: Setup, given: TemplateIssue): string {
  const revision = given.revision ?? lastRevision(job)
  return [
    job.documentNumber && `Document ${job.documentNumber}`,
    revision && `revision ${revision}`,
    given.date,
    `check sum ${checkSum(job, setup)}`,
  ]
    .filter(Boolean)
    .join(', ')
}

/** Everything to be recognised, plate frame, mm. */
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
  for (const { bore, centre } of mounted.bores) out.push(circle('mark', centre, bore.diameter / 2))
  const a = toRadians(indexAngle(mounted.job))
  out.push(indexMark({ x: rim * Math.cos(a), y: rim * Math.sin(a) }, a))
  return out
}

/** The axis, every other bore, every station on the plate, and the bolts of what has several. What stands on a shelf is nowhere on the plate. */
const prickPoints = ({ bores, pieces }: Mounted): Point[] => [
  { x: 0, y: 0 },
  ...bores.map((b) => b.centre).filter((p) => Math.hypot(p.x, p.y) > TOLERANCE.coincident),
  ...onPlate(pieces).flatMap((p) => [p.at, ...('bolts' in p.item ? p.fastenings.map((f) => f.at) : [])]),
]

const onPlate = (pieces: readonly MountedPiece[]): MountedPiece[] => pieces.filter((p) => !p.shelf)

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

/** Names of slots, holes, bores and stations, clear of lines and cuts. */
function labels(mounted: Mounted, tiling: Tiling, lines: readonly PlainPrimitive[]): PlainPrimitive[] {
  const { job } = mounted
  const wanted: Label[] = holeLabels({ job, mounted, scale: 1 }, { map: (p) => p })
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
    if (piece.shelf) return
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
