/** What stands still: the bed under the plate, the circle that clears it, and the cross-slide's. */
import { polar, toRadians } from '../../src-core/geometry/angles.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { Lathe } from '../../src-core/job/schema.ts'
import type { Extent } from '../editor/camera.ts'
import type { SceneItem } from './items.ts'

/** A flat way and a vee way, their tops at the line that the swing leaves free. */
function bedRing(top: number, width: number): Ring {
  const h = width / 2
  const u = width / 100
  return [
    { x: -h, y: top - 12 * u },
    { x: -h, y: top },
    { x: -h + 16 * u, y: top },
    { x: -h + 16 * u, y: top - 5 * u },
    { x: h - 20 * u, y: top - 5 * u },
    { x: h - 13 * u, y: top },
    { x: h - 6 * u, y: top - 5 * u },
    { x: h, y: top - 5 * u },
    { x: h, y: top - 12 * u },
  ]
}

/** Degrees between which the arrow of the turning stands. */
const TURNING = { from: 112, to: 138 } as const
/** Degrees at which the operator is named: below left, where the corner of the view is free. */
const OPERATOR = 226
/** Of the plate's diameter: how far out arrow and word stand, clear of its rim and within what is always in view. */
const RUNNING = { least: 0.515, most: 0.54 } as const

/**
 * Which way the work comes round when the spindle runs forward, and where one stands: seen from the tailstock it turns
 * counter-clockwise, its top coming down to the operator at the left.
 */
function describeRunning(radius: number): SceneItem[] {
  const at = (degrees: number, r = radius) => polar(r, degrees)
  const tip = at(TURNING.to)
  const barb = radius * 0.035
  const back = TURNING.to - 3.4
  return [
    {
      id: 'turning',
      layer: 'machine',
      role: 'turning',
      kind: 'path',
      closed: false,
      vertices: [
        { ...at(TURNING.from), bulge: Math.tan(toRadians((TURNING.to - TURNING.from) / 4)) },
        { ...tip, bulge: 0 },
      ],
    },
    {
      id: 'turning-head',
      layer: 'machine',
      role: 'turning',
      kind: 'line',
      points: [at(back, radius - barb), tip, at(back, radius + barb)],
    },
    {
      id: 'turning-word',
      layer: 'machine',
      role: 'machine-label',
      kind: 'text',
      at: at(TURNING.to, radius * 1.03),
      text: 'forward',
      align: 'right',
    },
    {
      id: 'operator-word',
      layer: 'machine',
      role: 'machine-label',
      kind: 'text',
      at: at(OPERATOR, radius * 1.03),
      text: 'operator',
      align: 'right',
    },
  ]
}

export function describeMachine(
  lathe: Lathe,
  plateDiameter: number,
  length: (mm: number) => string,
): SceneItem[] {
  const swing = lathe.swingOverBed
  const gap = lathe.gap?.open ? lathe.gap : null
  const items: SceneItem[] = []
  const bedTop = gap ? gap.swing : swing
  items.push({
    id: 'bed',
    layer: 'machine',
    role: 'bed',
    kind: 'region',
    rings: [bedRing(-bedTop / 2, swing * 0.56)],
  })
  items.push({
    id: 'swing',
    layer: 'machine',
    role: 'swing',
    kind: 'circle',
    centre: { x: 0, y: 0 },
    radius: swing / 2,
  })
  if (gap) {
    items.push({
      id: 'gap',
      layer: 'machine',
      role: 'swing',
      kind: 'circle',
      centre: { x: 0, y: 0 },
      radius: gap.swing / 2,
    })
  }
  const { least, most } = RUNNING
  const running = Math.min(most * plateDiameter, Math.max(least * plateDiameter, bedTop / 2))
  items.push(...describeRunning(running))
  const word = gap ? `gap, swing ${length(gap.swing)}` : `bed, swing ${length(swing)}`
  items.push({
    id: 'bed-label',
    layer: 'machine',
    role: 'machine-label',
    kind: 'text',
    at: { x: 0, y: -bedTop / 2 - swing * 0.047 },
    text: word,
    align: 'centre',
  })
  return items
}

/** The circle that clears the cross-slide: over the plate, under the work, since it only matters far enough out. */
export const describeCrossSlide = (lathe: Lathe): SceneItem => ({
  id: 'cross-slide',
  layer: 'plate',
  role: 'cross-slide',
  kind: 'circle',
  centre: { x: 0, y: 0 },
  radius: lathe.swingOverCrossSlide / 2,
})

/** All that belongs in view: plate, swing and the top of the bed. mm. */
export function machineExtent(lathe: Lathe, plateDiameter: number): Extent {
  const swing = lathe.swingOverBed / 2
  const r = Math.max(plateDiameter * 0.56, Math.min(swing, plateDiameter * 0.75))
  const bed = (lathe.gap?.open ? lathe.gap.swing : lathe.swingOverBed) / 2 + lathe.swingOverBed * 0.065
  return { x0: -r, x1: r, y0: -Math.max(r, Math.min(bed, plateDiameter)), y1: r * 1.02 }
}
