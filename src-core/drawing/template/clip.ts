/** Cuts a drawing to a rectangle. Sheet mm. */
import { flattenRing } from '../../geometry/flatten.ts'
import { circleRing } from '../../geometry/edges.ts'
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { PathStep, PlainPrimitive } from '../model/model.ts'
import type { Bounds } from '../placing/inkMap.ts'
import { subPaths } from '../model/subPaths.ts'

/**
 * What lies in the rectangle: whole things as they are, lines that cross its edge cut there (arcs as chords), filled
 * shapes and texts only where they lie wholly within.
 */
export function clipTo(primitives: readonly PlainPrimitive[], area: Bounds): PlainPrimitive[] {
  return primitives.flatMap((p): PlainPrimitive[] => {
    if (p.kind === 'text') return holds(area, p.at) ? [p] : []
    const runs =
      p.kind === 'circle'
        ? [closed(flattenRing(circleRing(p.centre, 2 * p.radius), PAPER_TOLERANCE.clipChord))]
        : subPaths(p.steps).map((run) => {
            const flat = flattenRing(
              run.closed ? run.vertices : open(run.vertices),
              PAPER_TOLERANCE.clipChord,
            )
            return run.closed ? closed(flat) : flat
          })
    if (runs.every((run) => run.every((q) => holds(area, q)))) return [p]
    if (p.fill !== undefined && p.fill !== 'none') return []
    const steps = runs.flatMap((run) => clipRun(run, area))
    return steps.length > 0 ? [{ kind: 'path', layer: p.layer, steps, fill: 'none' }] : []
  })
}

const closed = (points: readonly Point[]): Point[] => [...points, points[0]!]

const open = <T extends Point>(vertices: readonly T[]): (T | Point)[] =>
  vertices.map((v, i) => (i === vertices.length - 1 ? { x: v.x, y: v.y } : v))

export const holds = ({ x0, y0, x1, y1 }: Bounds, p: Point): boolean =>
  p.x >= x0 && p.x <= x1 && p.y >= y0 && p.y <= y1

function clipRun(run: readonly Point[], area: Bounds): PathStep[] {
  const steps: PathStep[] = []
  let pen: Point | null = null
  for (let i = 0; i + 1 < run.length; i++) {
    const piece = clipSegment(run[i]!, run[i + 1]!, area)
    if (!piece) {
      pen = null
      continue
    }
    const [a, b] = piece
    if (!pen || pen.x !== a.x || pen.y !== a.y) steps.push({ to: 'move', x: a.x, y: a.y })
    steps.push({ to: 'line', x: b.x, y: b.y })
    pen = b
  }
  return steps
}

/** The part of a segment in the rectangle (Liang and Barsky); null where there is none. */
export function clipSegment(a: Point, b: Point, area: Bounds): [Point, Point] | null {
  const dx = b.x - a.x
  const dy = b.y - a.y
  let t0 = 0
  let t1 = 1
  for (const [step, room] of [
    [-dx, a.x - area.x0],
    [dx, area.x1 - a.x],
    [-dy, a.y - area.y0],
    [dy, area.y1 - a.y],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null
    } else if (step < 0) t0 = Math.max(t0, room / step)
    else t1 = Math.min(t1, room / step)
  }
  if (t0 >= t1) return null
  const at = (t: number): Point => (t === 0 ? a : t === 1 ? b : { x: a.x + dx * t, y: a.y + dy * t })
  return [at(t0), at(t1)]
}
