/** Labels with a leader: item numbers in balloons (ISO 6433) and short notes. Candidates in sheet mm. */
import { angleTowards, onCircle, toRadians } from '../../geometry/angles.ts'
import type { Point } from '../../geometry/types.ts'
import { LETTERING } from '../text/lettering.ts'
import type { LayerName, PolarPrimitive, Primitive } from '../model/model.ts'
import type { Candidate } from '../placing/option.ts'
import { quad, segmentMeetsQuad, type Segment } from '../placing/quad.ts'
import { arrowhead, circle, line, text } from '../model/primitives.ts'
import { plain } from '../../units/format.ts'
import { textWidth } from '../text/textWidth.ts'

export const BALLOON_RADIUS = 4
const LINE_SPACE = 1.3
/** For each next best place that the leader may end at. */
const TARGET_COST = 25
const TURNS = [0, 6, -6, 12, -12, 19, -19, 27, -27, 36, -36, 47, -47, 60, -60, 76, -76, 96, -96]

/** Points round a centre: at each distance, at directions ever further from `home` (radians). Cost is of turn and distance. */
export function around(
  centre: Point,
  home: number,
  distances: readonly number[],
): { at: Point; direction: number; cost: number }[] {
  return distances.flatMap((distance, i) =>
    TURNS.map((turn) => {
      const direction = home + toRadians(turn)
      return {
        at: onCircle(centre, distance, direction),
        direction,
        cost: 1.5 * i + Math.abs(turn) / 8,
      }
    }),
  )
}

export interface BalloonSpec {
  /** Of a pile, uppermost first. */
  readonly numbers: readonly number[]
  /** Places on the piece where the leader may end, best first. */
  readonly targets: readonly Point[]
  readonly centre: Point
  /** Distances of the balloon from the centre. */
  readonly distances: readonly number[]
  /** Taken instead of the distances: where else the balloon may stand. */
  readonly places?: readonly Point[]
  /** Radius and angle of the station, without its drawn parts; null prints the number alone. */
  readonly polar: Omit<PolarPrimitive, 'parts' | 'balloon'> | null
}

export function balloonCandidates(spec: BalloonSpec): Candidate[] {
  const { polar, centre } = spec
  const height = LETTERING.read
  const lines = polar ? [polar.radiusText, polar.angleText].filter((t) => t !== '') : []
  const width = Math.max(0, ...lines.map((t) => textWidth(t, height)))
  const tall = lines.length * height + (lines.length - 1) * LINE_SPACE
  const numbers = spec.numbers.map((n) => plain(n, 0))
  const figure = numbers.some((n) => n.length > 2) ? LETTERING.note : LETTERING.read
  const one = (target: Point, at: Point, side: 1 | -1, cost: number): Candidate[] => {
    const lead = angleTowards(at, target)
    const foot = onCircle(at, BALLOON_RADIUS, lead)
    const label = { x: at.x + side * (BALLOON_RADIUS + 1 + width / 2), y: at.y }
    const figures = quad(label, width, tall)
    const leader = { a: foot, b: target }
    if (polar && segmentMeetsQuad(leader, figures, 0.5)) return []
    // A pile's balloons stand away from the leader, which ends on the uppermost piece's own.
    const away = target.y > at.y ? -1 : 1
    const step = away * 2 * BALLOON_RADIUS
    const balloons = numbers.map((words, i) => ({ words, at: { x: at.x, y: at.y + i * step } }))
    const middle = { x: at.x, y: at.y + ((numbers.length - 1) * step) / 2 }
    const balloon = quad(middle, 2 * BALLOON_RADIUS, 2 * BALLOON_RADIUS * numbers.length)
    const draw = (): Primitive[] => [
      line('dimension', foot, target),
      circle('mark', target, 0.7, 'solid'),
      ...balloons.flatMap(({ words, at: c }) => [
        circle('outline-thin', c, BALLOON_RADIUS, 'paper'),
        text({ x: c.x, y: c.y - figure / 2 }, words, figure, { anchor: 'middle', bold: true }),
      ]),
      ...(polar ? [drawPolar({ ...polar, balloon: at }, lines, label, side)] : []),
    ]
    return [{ quads: polar ? [balloon, figures] : [balloon], lines: [leader], cost, draw }]
  }
  if (spec.places)
    return spec.targets.flatMap((target) =>
      spec.places!.flatMap((at) => one(target, at, at.x < centre.x ? -1 : 1, 0)),
    )
  return spec.targets.flatMap((target, k) => {
    const home = angleTowards(centre, target)
    return around(centre, home, spec.distances).flatMap(({ at, direction, cost }) => {
      const outward = Math.cos(direction) >= 0 ? 1 : -1
      const own = cost + TARGET_COST * k
      const first = one(target, at, outward, own)
      // Above and below the plate the figures may stand on either side.
      const either = polar !== null && Math.abs(Math.cos(direction)) < 0.6
      return either ? [...first, ...one(target, at, outward === 1 ? -1 : 1, own + 2)] : first
    })
  })
}

function drawPolar(
  polar: Omit<PolarPrimitive, 'parts'>,
  lines: readonly string[],
  label: Point,
  side: 1 | -1,
): PolarPrimitive {
  const height = LETTERING.read
  const width = Math.max(0, ...lines.map((t) => textWidth(t, height)))
  const x = label.x - (side * width) / 2
  return {
    ...polar,
    parts: lines.map((content, i) =>
      text({ x, y: stackedLine(label.y, lines.length, i, height) }, content, height, {
        anchor: side === 1 ? 'start' : 'end',
        layer: 'dimension',
      }),
    ),
  }
}

/** Baseline of line i of n lines whose block is centred at y. */
const stackedLine = (y: number, n: number, i: number, height: number): number =>
  y + (n * height + (n - 1) * LINE_SPACE) / 2 - height - i * (height + LINE_SPACE)

export interface NoteSpec {
  readonly lines: readonly string[]
  readonly height: number
  readonly bold?: boolean
  readonly layer?: LayerName
  /** Where the leader ends, with an arrowhead; null: no leader. */
  readonly target: Point | null
  /** How far short of the target the leader stops, mm; 0 where not given. */
  readonly short?: number
  /** Middles of the text block, best first. */
  readonly places: readonly { readonly at: Point; readonly cost: number }[]
}

/** A short note, with a leader from the side of its text that is nearer to what it is about. */
export function noteCandidates(spec: NoteSpec): Candidate[] {
  const { lines, height, target } = spec
  const bold = spec.bold ?? false
  const width = Math.max(...lines.map((t) => textWidth(t, height, bold)))
  const tall = lines.length * height + (lines.length - 1) * LINE_SPACE
  const ground = (at: Point) => quad(at, width, tall)
  return spec.places.map(({ at, cost }): Candidate => {
    const lead = target && leaderTo(target, footOf(at, width, tall, target), spec.short ?? 0)
    return {
      quads: [ground(at)],
      lines: lead ? [lead] : [],
      cost,
      draw: (): Primitive[] => [
        ...(lead ? leader(lead.a, lead.b) : []),
        ...lines.map((content, i) =>
          text({ x: at.x, y: stackedLine(at.y, lines.length, i, height) }, content, height, {
            anchor: 'middle',
            bold,
            layer: spec.layer ?? 'text',
          }),
        ),
      ],
    }
  })
}

/** From a text's foot to its target, `short` of it; null where there is no length left to draw. */
function leaderTo(target: Point, foot: Point, short: number): Segment | null {
  const length = Math.hypot(target.x - foot.x, target.y - foot.y)
  if (length < short + 1.5) return null
  const t = (length - short) / length
  return { a: foot, b: { x: foot.x + (target.x - foot.x) * t, y: foot.y + (target.y - foot.y) * t } }
}

function leader(foot: Point, target: Point): Primitive[] {
  return [line('dimension', foot, target), arrowhead('dimension', target, angleTowards(foot, target), 2.5)]
}

/** Where a leader leaves a text block: the middle of the nearer side, or above or below it. */
function footOf(at: Point, width: number, tall: number, target: Point): Point {
  const dx = target.x - at.x
  const dy = target.y - at.y
  if (Math.abs(dx) > width / 2) return { x: at.x + Math.sign(dx) * (width / 2 + 1), y: at.y }
  return { x: at.x, y: at.y + Math.sign(dy) * (tall / 2 + 1) }
}
