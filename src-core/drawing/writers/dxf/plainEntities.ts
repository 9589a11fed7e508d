import { HatchBoundaryPaths, HatchPolylineBoundary, LWPolylineFlags, pattern, vertex } from '@tarikjabiri/dxf'
import type { CommonEntityOptions, DxfBlock, TextOptions } from '@tarikjabiri/dxf'
import { PAPER_TOLERANCE } from '../../../geometry/tolerance.ts'
import type { Vertex } from '../../../geometry/types.ts'
import { formatNumber } from '../formatNumber.ts'
import type { CirclePrimitive, PlainPrimitive, TextPrimitive } from '../../model/model.ts'
import { LAYER_STYLES } from '../../model/styles.ts'
import { subPaths } from '../../model/subPaths.ts'
import type { SubPath } from '../../model/subPaths.ts'
import { dxfNumber, dxfPoint } from './number.ts'
import { BOLD_STYLE, REGULAR_STYLE } from './tables.ts'
import { dxfText } from './text.ts'

const BULGE_DECIMALS = 12

/**
 * Adds what one primitive draws to model space or to a block. A solid shape becomes a HATCH without an outline;
 * paper and tint fills and ground are left out.
 *
 * @param dash how much longer than on the sheet the dashes of a line are
 */
export function addPlain(space: DxfBlock, primitive: PlainPrimitive, unit: number, dash = 1): void {
  if (primitive.layer === 'ground') return
  const layerName = LAYER_STYLES[primitive.layer].dxfName
  const lined = { layerName, ...(dash !== 1 && { lineTypeScale: dxfNumber(dash) }) }
  switch (primitive.kind) {
    case 'path': {
      const runs = subPaths(primitive.steps)
      if (primitive.fill === 'solid') addSolid(space, runs, layerName, unit)
      else for (const run of runs) addPolyline(space, run, lined, unit)
      return
    }
    case 'circle':
      if (primitive.fill === 'solid') addSolid(space, [disc(primitive)], layerName, unit)
      else {
        const radius = dxfNumber(primitive.radius * unit)
        space.addCircle(dxfPoint(primitive.centre, unit), radius, lined)
      }
      return
    case 'text':
      addText(space, primitive, layerName, unit)
  }
}

function dxfBulge(v: Vertex): number {
  const bulge = v.bulge ?? 0
  if (!Number.isFinite(bulge)) throw new RangeError(`Cannot write ${bulge} to a drawing`)
  return Math.abs(bulge) < PAPER_TOLERANCE.flatBulge ? 0 : Number(formatNumber(bulge, BULGE_DECIMALS))
}

function addPolyline(space: DxfBlock, run: SubPath, lined: CommonEntityOptions, unit: number): void {
  const vertices = run.vertices.map((v) => {
    const { x, y } = dxfPoint(v, unit)
    const bulge = dxfBulge(v)
    return bulge === 0 ? { point: { x, y } } : { point: { x, y }, bulge }
  })
  // Plinegen: the dashes run on round corners.
  const flags = run.closed ? LWPolylineFlags.Closed | LWPolylineFlags.Plinegen : LWPolylineFlags.Plinegen
  space.addLWPolyline(vertices, { ...lined, flags })
}

function addSolid(space: DxfBlock, runs: readonly SubPath[], layerName: string, unit: number): void {
  const areas = runs.filter((run) => run.vertices.length > 2 || run.vertices.some((v) => dxfBulge(v) !== 0))
  if (areas.length === 0) return
  const boundary = new HatchBoundaryPaths()
  for (const { vertices } of areas) {
    const outline = new HatchPolylineBoundary()
    for (const v of vertices) {
      const { x, y } = dxfPoint(v, unit)
      outline.add(vertex(x, y, dxfBulge(v)))
    }
    boundary.addPolylineBoundary(outline)
  }
  space.addHatch(boundary, pattern({ name: 'SOLID' as never }), { layerName })
}

function disc({ centre, radius }: CirclePrimitive): SubPath {
  const vertices = [
    { x: centre.x + radius, y: centre.y, bulge: 1 },
    { x: centre.x - radius, y: centre.y, bulge: 1 },
  ]
  return { vertices, closed: true }
}

function addText(space: DxfBlock, text: TextPrimitive, layerName: string, unit: number): void {
  const value = dxfText(text.text)
  if (value.trim() === '') return
  const at = dxfPoint(text.at, unit)
  const options: TextOptions = { layerName, rotation: dxfNumber(text.angle) }
  if (text.anchor !== 'start') {
    // 1 is centred on the baseline, 2 ends on it; the second point is then the one that counts.
    options.horizontalAlignment = text.anchor === 'middle' ? 1 : 2
    options.secondAlignmentPoint = at
  }
  const entity = space.addText(at, dxfNumber(text.height * unit), value, options)
  entity.textStyle = text.bold === true ? BOLD_STYLE : REGULAR_STYLE
}
