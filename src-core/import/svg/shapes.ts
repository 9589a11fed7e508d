/** Basic shapes and paths of SVG as runs of edges. */
import type { Point } from '../../geometry/types.ts'
import { applyTo, applyToVector, type Affine } from '../../geometry/affine.ts'
import { fullEllipse, type Chain } from '../chain.ts'
import type { Fit } from '../fitArcs.ts'
import { plainNumber } from '../refusal.ts'
import { userLength } from './lengths.ts'
import { readPath } from './pathData.ts'
import { Run } from './run.ts'
import type { XmlElement } from './xml.ts'

export type Drawn = readonly Chain[] | { readonly dropped: string }

/** Steps of work for a character of a list of points. */
const POINTS_COST = 4

class BadLength extends Error {}

/** Shapes by element name; `m` maps user units to the outline's. */
const SHAPES: Readonly<Record<string, (element: XmlElement, m: Affine, fit: Fit) => Drawn>> = {
  path(element, m, fit) {
    const read = readPath(element.attribute('d') ?? '', m, fit)
    if ('fault' in read) return { dropped: read.fault }
    if (read.runs.length === 0) return { dropped: 'draws nothing' }
    return read.runs.map(({ run, closed }) => chain(element, run, closed))
  },
  line(element, m, fit) {
    const run = new Run({ x: length(element, 'x1'), y: length(element, 'y1') }, m, fit)
    run.lineTo({ x: length(element, 'x2'), y: length(element, 'y2') })
    return [chain(element, run, false)]
  },
  polyline: (element, m, fit) => points(element, m, fit, false),
  polygon: (element, m, fit) => points(element, m, fit, true),
  circle(element, m, fit) {
    const r = length(element, 'r')
    return ellipse(element, r, r, m, fit)
  },
  ellipse: (element, m, fit) => ellipse(element, length(element, 'rx'), length(element, 'ry'), m, fit),
  rect,
}

export const isShape = (name: string) => Object.hasOwn(SHAPES, name)

export function drawShape(element: XmlElement, m: Affine, fit: Fit): Drawn {
  try {
    return SHAPES[element.name]!(element, m, fit)
  } catch (error) {
    if (error instanceof BadLength) return { dropped: error.message }
    throw error
  }
}

function chain(element: XmlElement, run: Run, closed: boolean): Chain {
  return { vertices: run.vertices, closed, kind: element.name, place: `line ${element.line}` }
}

function length(element: XmlElement, name: string, otherwise = 0): number {
  const text = element.attribute(name)
  if (text === undefined || text.trim() === 'auto') return otherwise
  const value = userLength(text)
  if (value === null) throw new BadLength(`its ${name} is not a length that stands for itself`)
  return value
}

function ellipse(element: XmlElement, rx: number, ry: number, m: Affine, fit: Fit): Drawn {
  if (!(rx > 0 && ry > 0)) return { dropped: 'its radius is not above zero' }
  const arc = {
    centre: applyTo(m, { x: length(element, 'cx'), y: length(element, 'cy') }),
    u: applyToVector(m, { x: rx, y: 0 }),
    v: applyToVector(m, { x: 0, y: ry }),
  }
  return [
    { vertices: fullEllipse(arc, fit), closed: true, kind: element.name, place: `line ${element.line}` },
  ]
}

function points(element: XmlElement, m: Affine, fit: Fit, closed: boolean): Drawn {
  fit.budget.work(POINTS_COST * (element.attribute('points')?.length ?? 0), fit.place)
  const words = (element.attribute('points') ?? '').trim().split(/[\s,]+/)
  const numbers = words[0] === '' ? [] : words.map(plainNumber)
  if (numbers.includes(null) || numbers.length % 2 !== 0)
    return { dropped: 'its points are not pairs of numbers' }
  if (numbers.length < 4) return { dropped: 'fewer than two points' }
  const at = (i: number): Point => ({ x: numbers[i]!, y: numbers[i + 1]! })
  const run = new Run(at(0), m, fit)
  for (let i = 2; i < numbers.length; i += 2) run.lineTo(at(i))
  return [chain(element, run, closed)]
}

/** Round corners: one missing radius is as the other, none larger than half a side. */
function rect(element: XmlElement, m: Affine, fit: Fit): Drawn {
  const [x, y] = [length(element, 'x'), length(element, 'y')]
  const [w, h] = [length(element, 'width'), length(element, 'height')]
  if (!(w > 0 && h > 0)) return { dropped: 'its sides are not above zero' }
  const given = { rx: length(element, 'rx', NaN), ry: length(element, 'ry', NaN) }
  const either = (a: number, b: number) => (a >= 0 ? a : b >= 0 ? b : 0)
  const rx = Math.min(either(given.rx, given.ry), w / 2)
  const ry = Math.min(either(given.ry, given.rx), h / 2)
  const run = new Run({ x: x + rx, y }, m, fit)
  const corner = (px: number, py: number) => {
    if (rx > 0 && ry > 0) run.arcTo(rx, ry, 0, false, true, { x: px, y: py })
  }
  const side = (px: number, py: number) => {
    if (px !== run.pen.x || py !== run.pen.y) run.lineTo({ x: px, y: py })
  }
  side(x + w - rx, y)
  corner(x + w, y + ry)
  side(x + w, y + h - ry)
  corner(x + w - rx, y + h)
  side(x + rx, y + h)
  corner(x, y + h - ry)
  side(x, y + ry)
  corner(x + rx, y)
  return [chain(element, run, true)]
}
