/** DXF entities as runs of edges. */
import { FULL_TURN, toRadians, wholeTurn, wholeTurnRadians } from '../../geometry/angles.ts'
import type { Point, Vertex } from '../../geometry/types.ts'
import { applyTo, applyToVector, compose, type Affine } from '../../geometry/affine.ts'
import { IMPORT_TOLERANCE, ROUNDING } from '../../geometry/tolerance.ts'
import { ellipticArc, fullEllipse, mapChain, type Chain } from '../chain.ts'
import { fitArcs, type Fit } from '../fitArcs.ts'
import type { Entity } from './drawing.ts'
import { bSpline, throughPoints } from './nurbs.ts'
import type { DxfRecord } from './records.ts'

/** A run of edges, or why there is none. */
export type Made = Chain | { readonly dropped: string }

const MOST_BULGE = 1e4
const drop = (dropped: string): Made => ({ dropped })

/** Readers by entity name; `m` maps the entity's world coordinates to the outline's. */
export const READERS: Readonly<Record<string, (entity: Entity, m: Affine, fit: Fit) => Made>> = {
  LINE: ({ record }, m) => {
    const a = applyTo(m, { x: record.number(10), y: record.number(20) })
    const b = applyTo(m, { x: record.number(11), y: record.number(21) })
    return chain(record, [a, b], false)
  },
  CIRCLE: planar(({ record }, m, fit) => {
    const circle = circleOf(record, m)
    return circle ? chain(record, fullEllipse(circle, fit), true) : drop('its radius is not above zero')
  }),
  ARC: planar(({ record }, m, fit) => {
    const circle = circleOf(record, m)
    if (!circle) return drop('its radius is not above zero')
    const from = record.number(50)
    const turn = wholeTurn(record.number(51) - from)
    if (turn === 0) return chain(record, fullEllipse(circle, fit), true)
    return chain(
      record,
      ellipticArc({ ...circle, start: toRadians(from), sweep: toRadians(turn) }, fit),
      false,
    )
  }),
  ELLIPSE: readEllipse,
  LWPOLYLINE: planar(({ record }, m, fit) => {
    const vertices: { x: number; y: number; bulge: number }[] = []
    record.codes.forEach((code, i) => {
      const last = vertices.at(-1)
      if (code === 10) vertices.push({ x: record.numberAt(i), y: 0, bulge: 0 })
      else if (code === 20 && last) last.y = record.numberAt(i)
      else if (code === 42 && last) last.bulge = record.numberAt(i)
    })
    const announced = record.number(90, vertices.length)
    if (announced !== vertices.length) return drop('announces more or fewer vertices than it has')
    return polyline(record, vertices, m, fit)
  }),
  POLYLINE: (entity, m, fit) => {
    const flags = entity.record.number(70, 0)
    if (flags & (16 | 64)) return drop('a mesh of faces')
    const vertices = entity.vertices
      // 16: control points of a fitted curve; the curve's own points follow them.
      .filter((v) => (v.number(70, 0) & 16) === 0)
      .map((v) => ({ x: v.number(10), y: v.number(20), bulge: v.number(42, 0) }))
    // 8: a polyline in space, in world coordinates and without bulges.
    if (flags & 8)
      return polyline(
        entity.record,
        vertices.map((v) => ({ ...v, bulge: 0 })),
        m,
        fit,
      )
    return planar(({ record }, mm) => polyline(record, vertices, mm, fit))(entity, m, fit)
  },
  SPLINE: readSpline,
}

function chain(record: DxfRecord, vertices: readonly Vertex[], closed: boolean): Chain {
  return { vertices, closed, kind: record.type, place: record.place }
}

/**
 * Entities that lie in their own plane, given by its normal. Up is the plan itself; down mirrors x, by the arbitrary
 * axis rule of the DXF reference; any other plane is not seen from above as it is drawn.
 */
export function planeOf(record: DxfRecord): 'up' | 'down' | 'tilted' {
  const tilt = Math.hypot(record.number(210, 0), record.number(220, 0))
  const z = record.number(230, 1)
  if (tilt > IMPORT_TOLERANCE.tilt * Math.abs(z)) return 'tilted'
  return z > 0 ? 'up' : 'down'
}

export const MIRROR: Affine = { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 }
export const TILTED = 'drawn in a plane that is not parallel to the plan'

function planar(
  read: (entity: Entity, m: Affine, fit: Fit) => Made,
): (entity: Entity, m: Affine, fit: Fit) => Made {
  return (entity, m, fit) => {
    const plane = planeOf(entity.record)
    if (plane === 'tilted') return drop(TILTED)
    return read(entity, plane === 'down' ? compose(m, MIRROR) : m, fit)
  }
}

function circleOf(record: DxfRecord, m: Affine): { centre: Point; u: Point; v: Point } | null {
  const radius = record.number(40)
  if (!(radius > 0)) return null
  return {
    centre: applyTo(m, { x: record.number(10), y: record.number(20) }),
    u: applyToVector(m, { x: radius, y: 0 }),
    v: applyToVector(m, { x: 0, y: radius }),
  }
}

function polyline(record: DxfRecord, vertices: readonly Vertex[], m: Affine, fit: Fit): Made {
  if (vertices.some((v) => Math.abs(v.bulge ?? 0) > MOST_BULGE)) return drop(`a bulge beyond ${MOST_BULGE}`)
  if (vertices.length < 2) return drop('fewer than two vertices')
  return mapChain(chain(record, vertices, (record.number(70, 0) & 1) === 1), m, fit)
}

/** World coordinates; the minor axis is normal × major axis × ratio. */
function readEllipse({ record }: Entity, m: Affine, fit: Fit): Made {
  const plane = planeOf(record)
  if (plane === 'tilted') return drop(TILTED)
  const ratio = record.number(40)
  const major = { x: record.number(11), y: record.number(21) }
  if (!(ratio > 0) || !(Math.hypot(major.x, major.y) > 0)) return drop('an axis without length')
  const side = plane === 'up' ? ratio : -ratio
  const arc = {
    centre: applyTo(m, { x: record.number(10), y: record.number(20) }),
    u: applyToVector(m, major),
    v: applyToVector(m, { x: -major.y * side, y: major.x * side }),
  }
  const start = record.number(41, 0)
  const sweep = wholeTurnRadians(record.number(42, FULL_TURN) - start)
  if (sweep < ROUNDING.angle || sweep > FULL_TURN - ROUNDING.angle)
    return chain(record, fullEllipse(arc, fit), true)
  return chain(record, ellipticArc({ ...arc, start, sweep }, fit), false)
}

function readSpline({ record }: Entity, m: Affine, fit: Fit): Made {
  const pairs = (codeX: number, codeY: number): Point[] | null => {
    const xs = record.numbers(codeX)
    const ys = record.numbers(codeY)
    return xs.length === ys.length ? xs.map((x, i) => applyTo(m, { x, y: ys[i]! })) : null
  }
  const control = pairs(10, 20)
  const through = pairs(11, 21)
  const knots = record.numbers(40)
  if (!control || !through) return drop('a point without its y')
  const short = [
    [73, control.length],
    [74, through.length],
    [72, knots.length],
  ].some(([code, found]) => record.number(code!, found!) !== found && record.number(code!, 0) !== 0)
  if (short) return drop('announces more or fewer points or knots than it has')
  const given = record.numbers(41)
  const weights = given.length === 0 ? control.map(() => 1) : given
  const degree = control.length > 0 ? record.number(71, 3) : 3
  const curve = control.length > 0 ? bSpline(control, weights, degree, knots) : throughPoints(through)
  if (!curve) return drop('its points, knots, weights and degree do not fit together')
  return chain(record, fitArcs(curve.at, curve.breaks, fit, 3 * degree * degree), false)
}
