/** A small drawing with every primitive, every fill and every layer, whose places are easy to work out by hand. */
import type {
  DimensionPrimitive,
  Drawing,
  LayerName,
  PathPrimitive,
  Primitive,
} from '../../src-core/drawing/model/model.ts'

export const LAYERS: readonly LayerName[] = [
  'outline',
  'outline-thin',
  'hidden',
  'centre',
  'phantom',
  'hatch',
  'dimension',
  'text',
  'frame',
  'mark',
  'caution',
]

const line = (layer: LayerName, x1: number, y1: number, x2: number, y2: number): PathPrimitive => ({
  kind: 'path',
  layer,
  steps: [
    { to: 'move', x: x1, y: y1 },
    { to: 'line', x: x2, y: y2 },
  ],
})

const arrow = (x: number, y: number, towards: 1 | -1): PathPrimitive => ({
  kind: 'path',
  layer: 'dimension',
  fill: 'solid',
  steps: [
    { to: 'move', x, y },
    { to: 'line', x: x - 3 * towards, y: y + 0.5 },
    { to: 'line', x: x - 3 * towards, y: y - 0.5 },
    { to: 'close' },
  ],
})

/** 60 mm on the sheet at 1:2, so 120 mm in the model. */
export const DIMENSION: DimensionPrimitive = {
  kind: 'dimension',
  layer: 'dimension',
  from: { x: 20, y: 50 },
  to: { x: 80, y: 50 },
  line: { a: { x: 20, y: 40 }, b: { x: 80, y: 40 } },
  text: 'Ø120 ±0.1',
  textAt: { x: 50, y: 41 },
  textAngle: 0,
  height: 3.5,
  value: 120,
  scale: 0.5,
  parts: [
    line('dimension', 20, 49, 20, 38),
    line('dimension', 80, 49, 80, 38),
    line('dimension', 20, 40, 80, 40),
    arrow(20, 40, -1),
    arrow(80, 40, 1),
    {
      kind: 'text',
      layer: 'dimension',
      at: { x: 50, y: 41 },
      text: 'Ø120 ±0.1',
      height: 3.5,
      anchor: 'middle',
      angle: 0,
    },
  ],
}

/** A slot: two straight sides 30 mm long joined by half turns of radius 5, round (140, 200). */
export const SLOT: PathPrimitive = {
  kind: 'path',
  layer: 'outline',
  steps: [
    { to: 'move', x: 125, y: 195 },
    { to: 'line', x: 155, y: 195 },
    { to: 'arc', x: 155, y: 205, bulge: 1 },
    { to: 'line', x: 125, y: 205 },
    { to: 'arc', x: 125, y: 195, bulge: 1 },
    { to: 'close' },
  ],
}

const primitives: readonly Primitive[] = [
  line('frame', 10, 10, 200, 10),
  // The check line: 100 mm from (20, 280).
  line('outline', 20, 280, 120, 280),
  SLOT,
  // A clockwise quarter turn of radius 20 from (40, 220) to (60, 240), about (60, 220).
  {
    kind: 'path',
    layer: 'outline-thin',
    steps: [
      { to: 'move', x: 40, y: 220 },
      { to: 'arc', x: 60, y: 240, bulge: -Math.tan(Math.PI / 8) },
    ],
  },
  line('hidden', 20, 180, 190, 180),
  line('centre', 20, 170, 190, 170),
  line('phantom', 20, 160, 190, 160),
  line('hatch', 20, 150, 190, 150),
  { kind: 'circle', layer: 'outline', centre: { x: 50, y: 110 }, radius: 20 },
  { kind: 'circle', layer: 'mark', centre: { x: 100, y: 110 }, radius: 10, fill: 'solid' },
  { kind: 'circle', layer: 'outline', centre: { x: 140, y: 110 }, radius: 15, fill: 'tint' },
  { kind: 'circle', layer: 'outline-thin', centre: { x: 140, y: 110 }, radius: 5, fill: 'paper' },
  // A square ring, 20 outside and 10 inside, round (180, 110).
  {
    kind: 'path',
    layer: 'mark',
    fill: 'solid',
    steps: [
      { to: 'move', x: 170, y: 100 },
      { to: 'line', x: 190, y: 100 },
      { to: 'line', x: 190, y: 120 },
      { to: 'line', x: 170, y: 120 },
      { to: 'close' },
      { to: 'move', x: 175, y: 105 },
      { to: 'line', x: 185, y: 105 },
      { to: 'line', x: 185, y: 115 },
      { to: 'line', x: 175, y: 115 },
      { to: 'close' },
    ],
  },
  {
    kind: 'text',
    layer: 'text',
    at: { x: 20, y: 265 },
    text: 'HEAVY SIDE 37°',
    height: 5,
    anchor: 'start',
    angle: 0,
  },
  {
    kind: 'text',
    layer: 'text',
    at: { x: 100, y: 25 },
    text: 'kg·mm',
    height: 3.5,
    anchor: 'middle',
    angle: 0,
    bold: true,
  },
  {
    kind: 'text',
    layer: 'text',
    at: { x: 195, y: 140 },
    text: 'A<B & "C"',
    height: 3.5,
    anchor: 'end',
    angle: 90,
  },
  {
    kind: 'text',
    layer: 'caution',
    at: { x: 120, y: 60 },
    text: '50%%c ^J',
    height: 3.5,
    anchor: 'start',
    angle: 0,
  },
  DIMENSION,
]

export const SAMPLE: Drawing = { title: 'Set-up <1> & Ø plate', width: 210, height: 297, primitives }

/** Another sheet size, for a second page. */
export const WIDE_SAMPLE: Drawing = {
  title: 'Second',
  width: 420,
  height: 297,
  primitives: [line('outline', 20, 20, 400, 20)],
}

/** The sample with one more primitive. */
export const sampleWith = (...more: readonly Primitive[]): Drawing => ({
  ...SAMPLE,
  primitives: [...primitives, ...more],
})
