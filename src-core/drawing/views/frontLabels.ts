/** Labels of the front view: slot names, item balloons with radius and angle, heavy side, swing, tightest corner. */
import { angleOf, angleTowards, onCircle, toDegrees, toRadians, wholeTurn } from '../../geometry/angles.ts'
import { isInside } from '../../geometry/nearest.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { datumEdges, datumPoints } from '../../mounting/partDatums.ts'
import { fixtureHoles, fixturesOf } from '../../mounting/fixtures.ts'
import type { MountedPiece } from '../../mounting/types.ts'
import { clockPosition } from '../../units/format.ts'
import { handFirst, isHidden, placedAt } from './choices.ts'
import { around, balloonCandidates, noteCandidates } from './callouts.ts'
import type { FrontLines } from './frontLines.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PolarPrimitive } from '../model/model.ts'
import type { Label } from '../placing/placeLabels.ts'
import type { Candidate } from '../placing/option.ts'
import { textWidth } from '../text/textWidth.ts'
import { pilesOf } from './piles.ts'
import { dimensionText, hasHeavySide, stationRadius, type ViewInput } from './view.ts'
import { angleText, indexAngle } from '../../mounting/plateAngle.ts'

/** Places on a piece where its leader may end. */
const TARGETS = 3
/** With more pieces than this a leader has one place on each to end at, or there would be too much to weigh. */
const MANY = 40
/** Cost of letters set in four lines in place of two: a leader of some length reads better. */
const CRAMPED = 30
/** Outward to what finds no room beside its point or hole, mm. */
const LEADS = [6, 10, 15, 21, 28, 36, 46, 60, 76, 94]
/** From the swing circle outward, mm. */
const RINGS = [9, 15, 22, 31]

export function slotLabels(
  { job, origin, scale }: Pick<ViewInput, 'job' | 'origin' | 'scale'>,
  { rim, swing }: Pick<FrontLines, 'rim' | 'swing'>,
): Label[] {
  return job.plate.slots.map((slot): Label => {
    const a = toRadians(slot.angle)
    const at = (r: number, across: number): Point => ({
      x: origin.x + Math.cos(a) * r - Math.sin(a) * across,
      y: origin.y + Math.sin(a) * r + Math.cos(a) * across,
    })
    const half = (slot.width / 2) * scale
    const wide = textWidth(slot.id, LETTERING.read, true) / 2
    const aside = half + wide + 1.5
    const middle = ((slot.from + slot.to) / 2) * scale
    const beyond = [rim, ...(swing > rim + 1 ? [swing] : [])].flatMap((r) =>
      [0, 5, -5, wide + 2, -wide - 2, 7, -7, 12, -12].flatMap((across) =>
        [4.5, 6.5, 9].map((d) => ({
          at: at(r + d, across),
          cost: 0.5 + Math.abs(across) / 4 + (d - 4.5) / 2 + (r - rim) / 4,
        })),
      ),
    )
    const places = [
      { at: at((slot.to * scale + half + rim) / 2, 0), cost: 0 },
      ...beyond,
      ...[1, -1].flatMap((side) => [
        { at: at(slot.to * scale, side * aside), cost: 2 },
        { at: at(slot.to * scale - 6, side * aside), cost: 2.5 },
        { at: at(middle, side * aside), cost: 6 },
        { at: at(slot.from * scale, side * aside), cost: 8 },
      ]),
      { at: at(middle, 0), cost: 7 },
      ...[0, 6, -6, 12, -12].map((across) => ({ at: at(swing + 14, across), cost: 12 })),
    ]
    return {
      id: `slot ${slot.id}`,
      words: `slot ${slot.id} at ${angleText(job, slot.angle)}`,
      candidates: noteCandidates({
        lines: [slot.id],
        height: LETTERING.read,
        bold: true,
        target: null,
        places,
      }),
    }
  })
}

/** What item numbers that find no room are called, before their numbers. */
export const ITEM = 'item'

/** Item numbers; radius and angle beside those that have a station. */
export function balloonLabels(input: ViewInput, lines: FrontLines): Label[] {
  const { mounted, origin } = input
  const grid = gridPoints(input.area)
  const piles = pilesOf(mounted.pieces)
  return mounted.pieces.flatMap((piece, i): Label[] => {
    const under = piles[i]!
    if (under === null) return []
    const numbers = [i, ...under].map((k) => k + 1)
    const most = mounted.pieces.length > MANY ? 1 : TARGETS
    const targets = leaderTargets(mounted.pieces, piece, lines).slice(0, most).map(lines.map)
    const spec = {
      numbers,
      targets,
      centre: origin,
      distances: RINGS.map((d) => lines.swing + d),
    }
    const polar = stationPolar(input, piece, lines.map)
    const full = input.crowded ? [] : balloonCandidates({ ...spec, polar })
    // With no room for the figures the number alone is drawn; the list has the rest.
    const bare = polar || input.crowded ? dearer(balloonCandidates({ ...spec, polar: null }), 40) : []
    const anywhere = () =>
      dearer(balloonCandidates({ ...spec, targets: targets.slice(0, 1), polar: null, places: grid }), 60)
    const placed = placedAt(input.choices, stationId(piece), lines.map(piece.at))
    const byHand = placed ? balloonCandidates({ ...spec, polar, places: [placed] }) : []
    const candidates = placed ? handFirst(byHand, [...full, ...bare]) : [...full, ...bare]
    const words = `${ITEM}${under.length > 0 ? 's' : ''} ${numbers.join(', ')}`
    return [{ id: `${ITEM} ${i + 1}`, words, candidates, spare: anywhere }]
  })
}

const dearer = (candidates: readonly Candidate[], by: number): Candidate[] =>
  candidates.map((c) => ({ ...c, cost: c.cost + by }))

/** Points all over the view's ground, for what finds no place where it belongs. */
function gridPoints({ x0, x1, y0, y1 }: ViewInput['area']): Point[] {
  const out: Point[] = []
  for (let x = x0 + 6; x < x1 - 5; x += 10) for (let y = y0 + 6; y < y1 - 5; y += 10) out.push({ x, y })
  return out
}

const stationId = (piece: MountedPiece): string => `station:${piece.item.id}`

function stationPolar(
  { job, origin, scale, choices }: ViewInput,
  piece: MountedPiece,
  map: (p: Point) => Point,
): Omit<PolarPrimitive, 'parts' | 'balloon'> | null {
  const radius = stationRadius(piece)
  const id = stationId(piece)
  if (radius === null || isHidden(choices, id)) return null
  const degrees = toDegrees(angleOf(piece.at))
  const zero = indexAngle(job)
  return {
    kind: 'polar',
    layer: 'dimension',
    id,
    centre: origin,
    at: map(piece.at),
    zero,
    radius,
    angle: wholeTurn(degrees - zero),
    scale,
    radiusText: `R${dimensionText(job, radius)}`,
    angleText: radius > 0 ? angleText(job, degrees) : '',
  }
}

/** Where a leader may end on a piece, plate frame: its station, and points of its outline's ground that show. */
function leaderTargets(
  pieces: readonly MountedPiece[],
  piece: MountedPiece,
  { isCovered }: FrontLines,
): Point[] {
  const inside = groundShown(piece, isCovered).sort((p, q) => Math.hypot(q.x, q.y) - Math.hypot(p.x, p.y))
  // Its own nut may stand over it, but nothing else.
  const isUnder = pieces.some((p) => p.z0 >= piece.z1 - TOLERANCE.height && isInside(p.footprint, piece.at))
  const top = isUnder ? piece.z1 : Math.max(...piece.solids.map((s) => s.z1))
  // Of what stands on a shelf the station is where it meets that, and most of it shows elsewhere.
  const best = piece.shelf || isCovered(piece.at, top) ? inside : [piece.at, ...inside]
  return best.length > 0 ? best : [piece.at]
}

/** Points of what shows of a piece; of one on a shelf, which is seen from the side, of the solid that shows most. */
function groundShown(piece: MountedPiece, isCovered: FrontLines['isCovered']): Point[] {
  const solids = piece.shelf ? piece.solids : [{ ring: piece.footprint, z1: piece.z1 }]
  const shown = solids.map(({ ring, z1 }) => {
    const { points, each } = pointsWithin(ring)
    const free = points.filter((p) => !isCovered(p, z1))
    return { free, area: free.length * each }
  })
  return shown.reduce((a, b) => (b.area > a.area ? b : a)).free
}

const SHARES = [0.5, 0.2, 0.8, 0.35, 0.65]

/** Points spread over the ground within an outline, and the area that each stands for. */
function pointsWithin(ring: Ring): { points: Point[]; each: number } {
  const xs = ring.map((v) => v.x)
  const ys = ring.map((v) => v.y)
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)]
  const [wide, tall] = [Math.max(...xs) - x0, Math.max(...ys) - y0]
  const points = SHARES.flatMap((u) => SHARES.map((v) => ({ x: x0 + wide * u, y: y0 + tall * v })))
  return {
    points: points.filter((p) => isInside(ring, p)),
    each: (wide * tall) / SHARES.length ** 2,
  }
}

export function heavyLabel({ job, analysis, origin }: ViewInput, { rim, swing }: FrontLines): Label[] {
  const { static_angle_deg: angle } = analysis.unbalance
  if (!hasHeavySide(analysis)) return []
  const a = toRadians(angle)
  const where = [`${angleText(job, angle, 0)},`, clockPosition(angle)]
  const tip = onCircle(origin, rim * HEAVY_TIP, a)
  const settings = [
    ['HEAVY SIDE', where.join(' ')],
    ['HEAVY', 'SIDE', ...where],
  ]
  const candidates = settings.flatMap((lines, i) => {
    const half = Math.max(...lines.map((t) => textWidth(t, LETTERING.read, true))) / 2
    const tall = (lines.length * 4.8) / 2
    const rings = [4, 7, 11, 16, 22, 30, 40].map((d) => swing + d)
    const places = around(origin, a, rings).map(({ at, direction, cost }) => ({
      at: { x: at.x + Math.cos(direction) * half, y: at.y + Math.sin(direction) * tall },
      cost: cost + CRAMPED * i,
    }))
    return noteCandidates({
      lines,
      height: LETTERING.read,
      bold: true,
      layer: 'caution',
      target: tip,
      places,
    })
  })
  return [{ id: 'heavy side', candidates }]
}

/** Share of the rim's radius at which the heavy-side arrow ends. */
export const HEAVY_TIP = 0.96

/** The swing circle where it is not the rim, and the corner with the tightest clearance. */
export function swingLabels(input: ViewInput, { map, rim, swing }: FrontLines): Label[] {
  const { job, analysis, origin, scale } = input
  const out: Label[] = []
  const distances = [9, 14, 20, 26].map((d) => swing + d)
  const note = (id: string, target: Point, settings: readonly (readonly string[])[]) => {
    const home = angleTowards(origin, target)
    const candidates = settings.flatMap((words, i) => {
      const half = Math.max(...words.map((t) => textWidth(t, LETTERING.note))) / 2
      const places = around(origin, home, distances).map(({ at, direction, cost }) => ({
        at: { x: at.x + Math.sign(Math.round(Math.cos(direction) * 10)) * half, y: at.y },
        cost: cost + i,
      }))
      return noteCandidates({ lines: words, height: LETTERING.note, target, places })
    })
    out.push({ id, candidates })
  }
  const tightest = analysis.clearances[0]
  if (tightest) {
    const words = tightestWords(input)
    note('tightest clearance', map(tightest.corner), [[words.join(' ')], words])
  }
  if (swing > rim + 0.1) {
    const at = onCircle(origin, swing, toRadians(35))
    note('swing', at, [[`swing R${dimensionText(job, swing / scale)}`]])
  }
  return out
}

/** In two lines. */
function tightestWords({ job, mounted, analysis }: ViewInput): string[] {
  const c = analysis.clearances[0]!
  const number = mounted.pieces.findIndex((p) => p.item.id === c.item) + 1
  const what = number > 0 ? `item ${number}` : c.item
  const against = c.against === 'gap' ? 'gap floor' : c.against
  const by = dimensionText(job, Math.abs(c.clearance_mm))
  return [`${what} ${c.clearance_mm < 0 ? 'FOULS' : 'clears'}`, `the ${against} by ${by}`]
}

/** Letters of the points and edges that the part is found by. */
export function datumLabels({ mounted, origin }: ViewInput, { map }: FrontLines): Label[] {
  const named = [
    ...datumPoints(mounted)
      .filter((p) => p.kind === 'corner')
      .map(({ id, at }) => ({ id, target: map(at) })),
    ...datumEdges(mounted).map(({ id, a, b }) => ({
      id,
      target: map({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }),
    })),
  ]
  return named.map(({ id, target }): Label => {
    const half = textWidth(id, LETTERING.read) / 2
    const home = angleTowards(origin, target)
    const places = [0, 45, -45, 90, -90, 180].flatMap((turn, i) =>
      around(target, home + toRadians(turn), [5, 8, 12, 17, 24, 33]).map(({ at, direction, cost }) => ({
        at: { x: at.x + Math.cos(direction) * half, y: at.y },
        cost: cost + 1.5 * i,
      })),
    )
    const spec = { lines: [id], height: LETTERING.read, target }
    return {
      id: `datum ${id}`,
      words: `the letter of ${id}`,
      candidates: noteCandidates({ ...spec, places }),
      spare: () => noteCandidates({ ...spec, places: around(target, home, LEADS) }),
    }
  })
}

/** Ids of the holes of plate and sub-plates: beside them, on a leader where something is in the way; with many of them those that find room. */
export function holeLabels(
  { job, mounted: { setup }, scale }: Pick<ViewInput, 'job' | 'mounted' | 'scale'>,
  { map }: Pick<FrontLines, 'map'>,
): Label[] {
  const ofFixtures = fixturesOf(setup).flatMap((item) => fixtureHoles(job.plate, item))
  const holes = [...job.plate.holes, ...ofFixtures]
  return holes.map((hole): Label => {
    const at = map(hole)
    const reach = (hole.diameter / 2) * scale + textWidth(hole.id, LETTERING.note) / 2 + 1.2
    const places = [0, 180, 90, 270, 45, 135, 225, 315].map((turn, i) => ({
      at: onCircle(at, reach, toRadians(turn)),
      cost: i / 2,
    }))
    return {
      id: `hole ${hole.id}`,
      words: `hole ${hole.id} at R${dimensionText(job, Math.hypot(hole.x, hole.y))}, ${angleText(job, toDegrees(angleOf(hole)))}`,
      candidates: noteCandidates({ lines: [hole.id], height: LETTERING.note, target: null, places }),
      ...(holes.length <= MANY && {
        spare: () =>
          noteCandidates({
            lines: [hole.id],
            height: LETTERING.note,
            target: at,
            places: around(
              at,
              angleTowards(map({ x: 0, y: 0 }), at),
              LEADS.map((d) => reach + d),
            ),
          }),
      }),
    }
  })
}
