/** A ring as SVG path data in plate coordinates (y up: the drawing's group flips it). */
import { ringEdges } from '../../src-core/geometry/edges.ts'
import type { Ring } from '../../src-core/geometry/types.ts'

const figure = (v: number) => Number(v.toFixed(3))

export function svgPath(rings: readonly Ring[]): string {
  return rings.map(ringPath).join(' ')
}

function ringPath(ring: Ring): string {
  const first = ring[0]
  if (!first) return ''
  const steps = ringEdges(ring).map(({ b, arc }) => {
    if (!arc) return `L${figure(b.x)} ${figure(b.y)}`
    const large = Math.abs(arc.sweep) > Math.PI ? 1 : 0
    return `A${figure(arc.radius)} ${figure(arc.radius)} 0 ${large} ${arc.sweep > 0 ? 1 : 0} ${figure(b.x)} ${figure(b.y)}`
  })
  return `M${figure(first.x)} ${figure(first.y)} ${steps.join(' ')} Z`
}
