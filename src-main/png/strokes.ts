/** Lines with a width as polygons: butt ends, round joins, dashes. */
import type { Point } from '../../src-core/geometry/types.ts'

/** Corners of the polygon that rounds a join. */
const JOIN_CORNERS = 12

export interface Polyline {
  readonly points: readonly Point[]
  readonly closed: boolean
}

/** All polygons turn the same way, so that filled by the non-zero rule they are one shape. x, y alternating. */
export function strokePolygons(
  { points, closed }: Polyline,
  width: number,
  dash: readonly number[],
): number[][] {
  const line = closed && points.length > 1 ? [...points, points[0]!] : points
  const runs = dash.length > 0 ? dashes(line, dash) : [line]
  return runs.flatMap((run) => thicken(run, width / 2, closed && dash.length === 0))
}

function thicken(run: readonly Point[], half: number, closed: boolean): number[][] {
  const polygons: number[][] = []
  for (let i = 0; i + 1 < run.length; i++) {
    const a = run[i]!
    const b = run[i + 1]!
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    if (length === 0) continue
    const nx = (-(b.y - a.y) / length) * half
    const ny = ((b.x - a.x) / length) * half
    polygons.push([a.x - nx, a.y - ny, b.x - nx, b.y - ny, b.x + nx, b.y + ny, a.x + nx, a.y + ny])
    if (i > 0 || closed) polygons.push(disc(a, half))
  }
  return polygons
}

function disc({ x, y }: Point, radius: number): number[] {
  return Array.from({ length: JOIN_CORNERS }, (_, k) => (2 * Math.PI * k) / JOIN_CORNERS).flatMap((t) => [
    x + radius * Math.cos(t),
    y + radius * Math.sin(t),
  ])
}

/** The parts of a line that are drawn, by dash and gap lengths in turn. */
function dashes(line: readonly Point[], pattern: readonly number[]): Point[][] {
  const runs: Point[][] = []
  let index = 0
  let left = pattern[0]!
  let run: Point[] = line[0] ? [line[0]] : []
  const drawing = () => index % 2 === 0
  for (let i = 0; i + 1 < line.length; i++) {
    let a = line[i]!
    const b = line[i + 1]!
    for (let rest = Math.hypot(b.x - a.x, b.y - a.y); rest > 0;) {
      const step = Math.min(rest, left)
      a = step === rest ? b : { x: a.x + ((b.x - a.x) * step) / rest, y: a.y + ((b.y - a.y) * step) / rest }
      if (drawing()) run.push(a)
      rest -= step
      left -= step
      if (left > 0) continue
      if (drawing()) runs.push(run)
      index = (index + 1) % pattern.length
      left = pattern[index]!
      run = [a]
    }
  }
  if (drawing() && run.length > 1) runs.push(run)
  return runs
}
