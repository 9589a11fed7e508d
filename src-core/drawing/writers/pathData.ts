import { angleTowards, onCircle } from '../../geometry/angles.ts'
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point, Vertex } from '../../geometry/types.ts'
import { formatNumber } from './formatNumber.ts'
import type { PathStep } from '../model/model.ts'
import { subPaths } from '../model/subPaths.ts'

/** A tenth of a micrometre: far below what a printer places. */
const DECIMALS = 4

/**
 * A path as SVG path data, mm, y down from the sheet's upper edge (PDF writing reads the same notation).
 *
 * Arcs are written in pieces of at most a quarter turn: near a half turn the centre that a reader works out from
 * rounded end points and radius moves by the square root of the rounding (0.1 mm for a 100 mm radius), while up to
 * a quarter turn it moves no more than the rounding itself.
 *
 * @throws RangeError on a coordinate that is not finite
 */
export function pathData(steps: readonly PathStep[], sheetHeight: number): string {
  const write = (p: Point): string =>
    `${formatNumber(p.x, DECIMALS)} ${formatNumber(sheetHeight - p.y, DECIMALS)}`
  const parts: string[] = []
  for (const { vertices, closed } of subPaths(steps)) {
    parts.push(`M${write(vertices[0]!)}`)
    const edges = closed ? vertices.length : vertices.length - 1
    for (let i = 0; i < edges; i++) {
      const from = vertices[i]!
      const to = vertices[(i + 1) % vertices.length]!
      if (isFlat(from, to)) {
        if (i < vertices.length - 1) parts.push(`L${write(to)}`)
      } else {
        parts.push(...arcPieces(from, to, write))
      }
    }
    if (closed) parts.push('Z')
  }
  return parts.join('')
}

function isFlat(from: Vertex, to: Point): boolean {
  const rise = (Math.abs(from.bulge ?? 0) * Math.hypot(to.x - from.x, to.y - from.y)) / 2
  return rise < PAPER_TOLERANCE.flat
}

/** Turning about the centre in equal pieces; sweep = 4 atan(bulge), radius = chord (1 + bulge²) / (4 |bulge|). */
function arcPieces(from: Vertex, to: Point, write: (p: Point) => string): string[] {
  const bulge = from.bulge ?? 0
  const sweep = 4 * Math.atan(bulge)
  const dx = to.x - from.x
  const dy = to.y - from.y
  const radius = (Math.hypot(dx, dy) * (1 + bulge * bulge)) / (4 * Math.abs(bulge))
  // From the middle of the chord to the centre, as a share of the chord turned a quarter turn to the left.
  const share = (1 - bulge * bulge) / (4 * bulge)
  const centre = { x: (from.x + to.x) / 2 - dy * share, y: (from.y + to.y) / 2 + dx * share }
  const start = angleTowards(centre, from)
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - PAPER_TOLERANCE.quarterTurn))
  const size = formatNumber(radius, DECIMALS)
  // Counter-clockwise with y up is anticlockwise on a y-down page: sweep flag 0.
  const head = `A${size} ${size} 0 0 ${sweep > 0 ? 0 : 1} `
  return Array.from({ length: count }, (_, i) => {
    if (i === count - 1) return head + write(to)
    const angle = start + (sweep * (i + 1)) / count
    return head + write(onCircle(centre, radius, angle))
  })
}
