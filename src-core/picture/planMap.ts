/**
 * From the pixels of a photograph to the plan of a part, and back.
 *
 * Two ties give a similarity: turned, scaled and moved, never mirrored. Four give a plane homography, found directly:
 * the unit square is mapped to the quadrilateral in the picture and to that in the plan, and one map is undone before
 * the other is done (P. S. Heckbert, Fundamentals of Texture Mapping and Image Warping, University of California at
 * Berkeley, 1989, section 2.2.3). Pixels count downward and millimetres upward, so a photograph that is not mirrored
 * turns clockwise corners in pixel coordinates into counter-clockwise ones in the plan.
 */
import { PICTURE_TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { adjugate, multiply, project, weight, type Matrix3 } from './matrix.ts'

/** A point of the picture (pixels, right and down from its upper left corner) and where it lies in the part's plan, mm. */
export interface Tie {
  readonly u: number
  readonly v: number
  readonly x: number
  readonly y: number
}

/** Two place and scale a picture, four square it up as well. */
export type Ties = readonly [Tie, Tie] | readonly [Tie, Tie, Tie, Tie]

export interface PlanMap {
  /** Pixels to mm; its weight is 1 at the ties' middle and positive wherever the picture shows the plan's plane. */
  readonly toPlan: Matrix3
  /** mm to pixels. */
  readonly toPixel: Matrix3
}

export type PlanMapResult =
  { readonly ok: true; readonly map: PlanMap } | { readonly ok: false; readonly reason: string }

const pixelOf = (t: Tie): Point => ({ x: t.u, y: t.v })
const planOf = (t: Tie): Point => ({ x: t.x, y: t.y })
const distance = (a: Point, b: Point) => Math.hypot(b.x - a.x, b.y - a.y)

/** The map that two or four ties give, or why they give none. */
export function planMap(ties: Ties): PlanMapResult {
  const reason = tieFault(ties)
  if (reason !== null) return { ok: false, reason }
  const pixels = ties.map(pixelOf)
  const plan = ties.map(planOf)
  const raw = ties.length === 2 ? similarity(pixels, plan) : homography(pixels, plan)
  const middle = {
    x: pixels.reduce((s, p) => s + p.x, 0) / pixels.length,
    y: pixels.reduce((s, p) => s + p.y, 0) / pixels.length,
  }
  const toPlan = scaled(raw, 1 / weight(raw, middle))
  const back = adjugate(toPlan)
  return { ok: true, map: { toPlan, toPixel: scaled(back, 1 / weight(back, project(toPlan, middle))) } }
}

const scaled = (m: Matrix3, by: number): Matrix3 => m.map((v) => v * by) as unknown as Matrix3

/** What is wrong with ties, in words that follow "ties"; null where they are sound. */
export function tieFault(ties: Ties): string | null {
  const pixels = ties.map(pixelOf)
  const plan = ties.map(planOf)
  for (let i = 0; i < ties.length; i++)
    for (let k = i + 1; k < ties.length; k++) {
      if (distance(pixels[i]!, pixels[k]!) < PICTURE_TOLERANCE.apart)
        return `${i + 1} and ${k + 1} are the same point of the picture`
      if (distance(plan[i]!, plan[k]!) < PICTURE_TOLERANCE.apartOnPlan)
        return `${i + 1} and ${k + 1} are the same point of the part`
    }
  if (ties.length === 2) return null
  const inPicture = convexity(pixels)
  const inPlan = convexity(plan)
  if (inPicture === 'in line') return 'have three in one line in the picture'
  if (inPlan === 'in line') return 'have three in one line on the part'
  if (inPicture === 'not convex') return 'do not go round in order in the picture'
  if (inPlan === 'not convex') return 'do not go round in order on the part'
  // Down in the picture is up in the plan: the same turn in both would be a mirror image.
  if (inPicture === inPlan) return 'go round the other way on the part, which would mirror the picture'
  return null
}

type Going = 'clockwise' | 'counter-clockwise' | 'in line' | 'not convex'

/** How a quadrilateral goes round, as seen with y up. */
function convexity(q: readonly Point[]): Going {
  const turns = q.map((_, i) => {
    // Each three of the four, in order.
    const [a, b, c] = [0, 1, 2, 3].filter((k) => k !== i).map((k) => q[k]!) as [Point, Point, Point]
    const cross = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
    const longest = Math.max(distance(a, b), distance(b, c), distance(a, c))
    return cross / longest ** 2
  })
  if (turns.some((t) => Math.abs(t) < PICTURE_TOLERANCE.flatness)) return 'in line'
  if (turns.every((t) => t > 0)) return 'counter-clockwise'
  return turns.every((t) => t < 0) ? 'clockwise' : 'not convex'
}

/** As complex numbers with the pixels' y turned up: z′ = k·z + t. */
function similarity(pixels: readonly Point[], plan: readonly Point[]): Matrix3 {
  const [p, q] = pixels as [Point, Point]
  const [a, b] = plan as [Point, Point]
  const du = q.x - p.x
  const dv = p.y - q.y
  const n = du * du + dv * dv
  const re = ((b.x - a.x) * du + (b.y - a.y) * dv) / n
  const im = ((b.y - a.y) * du - (b.x - a.x) * dv) / n
  return [re, im, a.x - re * p.x - im * p.y, im, -re, a.y - im * p.x + re * p.y, 0, 0, 1]
}

const homography = (pixels: readonly Point[], plan: readonly Point[]): Matrix3 =>
  multiply(squareToQuad(plan), adjugate(squareToQuad(pixels)))

/** The map of (0,0), (1,0), (1,1), (0,1) to four corners in order: Heckbert's closed form. */
function squareToQuad(q: readonly Point[]): Matrix3 {
  const [p0, p1, p2, p3] = q as [Point, Point, Point, Point]
  const sx = p0.x - p1.x + p2.x - p3.x
  const sy = p0.y - p1.y + p2.y - p3.y
  const dx1 = p1.x - p2.x
  const dy1 = p1.y - p2.y
  const dx2 = p3.x - p2.x
  const dy2 = p3.y - p2.y
  const det = dx1 * dy2 - dx2 * dy1
  const g = (sx * dy2 - dx2 * sy) / det
  const h = (dx1 * sy - sx * dy1) / det
  return [
    p1.x - p0.x + g * p1.x, p3.x - p0.x + h * p3.x, p0.x,
    p1.y - p0.y + g * p1.y, p3.y - p0.y + h * p3.y, p0.y,
    g, h, 1,
  ] // prettier-ignore
}
