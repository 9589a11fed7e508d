/** Marks of the views. Sheet mm. */
import { onCircle } from '../../geometry/angles.ts'
import type { Point } from '../../geometry/types.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { arrowhead, box, circle, line } from '../model/primitives.ts'

const NOSE = 1.7
const LEVEL_TICK = 2

/** Centre of mass as set up: a disc with two filled quarters. */
export function quarteredDisc(at: Point, r = 2): PlainPrimitive[] {
  const quarter = (start: number): PlainPrimitive => {
    const a = (start * Math.PI) / 2
    const p = onCircle(at, r, a)
    const q = onCircle(at, r, a + Math.PI / 2)
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

/** Centre of mass before the counterweights: an open circle with a cross. */
export function openCentre(at: Point, r = 2): PlainPrimitive[] {
  return [
    circle('mark', at, r, 'paper'),
    line('mark', { x: at.x - r, y: at.y }, { x: at.x + r, y: at.y }),
    line('mark', { x: at.x, y: at.y - r }, { x: at.x, y: at.y + r }),
  ]
}

/** Where a clamp bears on the part: a filled square. */
export const noseMark = (at: Point): PlainPrimitive =>
  box('mark', at.x - NOSE / 2, at.y - NOSE / 2, NOSE, NOSE, 'solid')

/** Mark of the index slot: a filled triangle outside the rim, pointing inward. `direction` of the slot in radians. */
export const indexMark = (tip: Point, direction: number): PlainPrimitive =>
  arrowhead('mark', tip, direction + Math.PI, 4)

/** The level of bed or cross-slide, with ground hatching below it. */
export function level(x0: number, x1: number, y: number): PlainPrimitive[] {
  const out: PlainPrimitive[] = [line('outline', { x: x0, y }, { x: x1, y })]
  for (let x = x0 + LEVEL_TICK; x <= x1; x += 2 * LEVEL_TICK)
    out.push(line('hatch', { x, y }, { x: x - LEVEL_TICK, y: y - LEVEL_TICK }))
  return out
}
