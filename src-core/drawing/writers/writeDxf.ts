import { addDimension } from './dxf/dimensions.ts'
import { addPlain } from './dxf/plainEntities.ts'
import { startDxf, type Extents } from './dxf/tables.ts'
import { uncovered } from './dxf/uncovered.ts'
import type { Drawing, ModelView, Primitive } from '../model/model.ts'
import { movedDimension, movedPlain, type Move } from '../model/moved.ts'
import { plainParts } from '../model/plain.ts'

export interface DxfOptions {
  /** What one drawing unit is. */
  readonly units: 'mm' | 'in'
}

/** Between the model in real size and the sheet beside it, mm. */
const BESIDE = 50
const STAYS: Move = { factor: 1, by: { x: 0, y: 0 } }

/**
 * A drawing as a DXF file (AC1021, UTF-8), a layer for each of the drawing's layers with line type, line width and
 * colour. What shows the model stands in model space in real size, its origin at the file's, dimensions as DIMENSION
 * entities; the sheet stands beside it as plain lines and texts, at its own size. A drawing without a model is its sheet
 * alone, its lower left corner at the origin. Lines that a filled shape hides are left out. Same drawing in, same text
 * out.
 *
 * @throws RangeError on a number that is not finite
 */
export function writeDxf(drawing: Drawing, options: DxfOptions = { units: 'mm' }): string {
  const unit = options.units === 'mm' ? 1 : 1 / 25.4
  const { model } = drawing
  const sheet = model ? besideModel(model) : STAYS
  const dxf = startDxf(options.units, extentsOf(drawing, sheet))
  let dimensions = 0
  const add = (primitives: readonly Primitive[], move: Move, dash: number) => {
    for (const primitive of uncovered(primitives)) {
      if (primitive.kind === 'dimension')
        addDimension(dxf, movedDimension(primitive, move), unit, ++dimensions, dash)
      else
        for (const part of plainParts([primitive]))
          addPlain(dxf.modelSpace, movedPlain(part, move), unit, dash)
    }
  }
  if (!model) add(drawing.primitives, sheet, 1)
  else {
    add(model.primitives, toRealSize(model), 1 / model.scale)
    add(plainParts(drawing.primitives), sheet, 1)
  }
  return `${dxf.document.stringify()}\n`
}

/** From sheet to model, mm. */
const toRealSize = ({ scale, origin }: ModelView): Move => ({
  factor: 1 / scale,
  by: { x: -origin.x / scale, y: -origin.y / scale },
})

/** To the right of the model, its lower edge on that of the model's ground. */
const besideModel = ({ scale, origin, area }: ModelView): Move => ({
  factor: 1,
  by: { x: (area.x1 - origin.x) / scale + BESIDE, y: (area.y0 - origin.y) / scale },
})

/** Of all that is drawn, mm. */
function extentsOf({ width, height, model }: Drawing, { by }: Move): Extents {
  const sheet = { x0: by.x, y0: by.y, x1: by.x + width, y1: by.y + height }
  if (!model) return sheet
  const { scale, origin, area } = model
  const top = (area.y1 - origin.y) / scale
  return { x0: (area.x0 - origin.x) / scale, y0: sheet.y0, x1: sheet.x1, y1: Math.max(sheet.y1, top) }
}
