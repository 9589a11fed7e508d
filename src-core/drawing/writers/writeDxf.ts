import { addDimension } from './dxf/dimensions.ts'
import { addPlain } from './dxf/plainEntities.ts'
import { startDxf } from './dxf/tables.ts'
import { uncovered } from './dxf/uncovered.ts'
import type { Drawing } from '../model/model.ts'

export interface DxfOptions {
  /** What one drawing unit is. */
  readonly units: 'mm' | 'in'
}

/**
 * A drawing as a DXF file (AC1021, UTF-8): the sheet at true size in model space, origin at its lower left corner,
 * a layer for each of the drawing's layers with line type, line width and colour. Dimensions are DIMENSION
 * entities. Lines that a filled shape hides are left out. Same drawing in, same text out.
 *
 * @throws RangeError on a number that is not finite
 */
export function writeDxf(drawing: Drawing, options: DxfOptions = { units: 'mm' }): string {
  const unit = options.units === 'mm' ? 1 : 1 / 25.4
  const dxf = startDxf(drawing, unit)
  let dimensions = 0
  for (const primitive of uncovered(drawing.primitives)) {
    if (primitive.kind === 'dimension') addDimension(dxf, primitive, unit, ++dimensions)
    else if (primitive.kind === 'polar')
      for (const part of primitive.parts) addPlain(dxf.modelSpace, part, unit)
    else addPlain(dxf.modelSpace, primitive, unit)
  }
  return `${dxf.document.stringify()}\n`
}
