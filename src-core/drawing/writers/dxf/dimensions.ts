import { angleTowards, toDegrees } from '../../../geometry/angles.ts'
import { LinearDimension } from '@tarikjabiri/dxf'
import type { DxfStyle, DxfWriter, LinearDimOptions, vec3_t } from '@tarikjabiri/dxf'
import { formatNumber } from '../formatNumber.ts'
import type { DimensionPrimitive } from '../../model/model.ts'
import { LAYER_STYLES } from '../../model/styles.ts'
import { dxfNumber, dxfPoint } from './number.ts'
import { addPlain } from './plainEntities.ts'
import { REGULAR_STYLE } from './tables.ts'
import { dxfDimensionText } from './text.ts'

/** Rotated dimension (0) whose block no other entity uses (32) and whose text stands where it was put (128). */
const ROTATED_WITH_BLOCK = 0 + 32 + 128
const ANONYMOUS_BLOCK = 1
/** Attachment of the text: its lower middle, so the point given is on the baseline. */
const BOTTOM_CENTRE = 8

class BlockDimension extends LinearDimension {
  constructor(first: vec3_t, second: vec3_t, options: LinearDimOptions) {
    super(first, second, options)
    this.dimensionType = ROTATED_WITH_BLOCK
  }
}

/**
 * Adds a DIMENSION entity with the block of lines, arrowheads and text that draws it (`*D1`, `*D2` ...), so that
 * programs that do not draw dimensions themselves show what the sheet shows. The measurement is the one in the
 * model; the dimension style's linear factor turns sheet lengths into it.
 *
 * @param unit drawing units a millimetre
 * @param dash how much longer than on the sheet the dashes of a line are
 * @throws RangeError if the sheet's scale is not a positive number, or any number is not finite
 */
export function addDimension(
  dxf: DxfWriter,
  dimension: DimensionPrimitive,
  unit: number,
  index: number,
  dash = 1,
): void {
  if (!(dimension.scale > 0)) throw new RangeError(`Cannot dimension at scale ${dimension.scale}`)
  const blockName = `*D${formatNumber(index, 0)}`
  const block = dxf.blocks.addBlock(blockName, dxf.document.objects, false)
  block.flags = ANONYMOUS_BLOCK
  block.setLayerName(LAYER_STYLES.dimension.dxfName)
  for (const part of dimension.parts) addPlain(block, part, unit, dash)
  const { a, b } = dimension.line
  const options: LinearDimOptions = {
    layerName: LAYER_STYLES.dimension.dxfName,
    blockName,
    styleName: dimensionStyle(dxf, dimension, unit),
    definitionPoint: dxfPoint(b, unit),
    middlePoint: dxfPoint(dimension.textAt, unit),
    attachmentPoint: BOTTOM_CENTRE,
    ActualMeasurement: dxfNumber(dimension.value * unit),
    text: dxfDimensionText(dimension.text),
    angle: dxfNumber(toDegrees(angleTowards(a, b))),
  }
  dxf.modelSpace.addEntity(
    new BlockDimension(dxfPoint(dimension.from, unit), dxfPoint(dimension.to, unit), options),
  )
}

/** One style for each scale and text height on the sheet. Returns its name. */
function dimensionStyle(dxf: DxfWriter, { scale, height }: DimensionPrimitive, unit: number): string {
  const name = `SHEET_${formatNumber(1 / scale, 6)}_${formatNumber(height, 3)}`.replaceAll('.', '_')
  const known = dxf.tables.dimStyleTable.records as readonly { readonly name?: string }[]
  if (known.some((style) => style.name === name)) return name
  const style = dxf.addDimStyle(name)
  style.DIMTXSTY = textStyleHandle(dxf)
  style.DIMLFAC = dxfNumber(1 / scale)
  style.DIMTXT = dxfNumber(height * unit)
  style.DIMASZ = dxfNumber(height * unit)
  style.DIMGAP = dxfNumber((height / 3) * unit)
  // Text above the line and along it, no trailing zeros (ISO 129-1).
  style.DIMTAD = 1
  style.DIMTIH = 0
  style.DIMTOH = 0
  style.DIMZIN = 8
  return name
}

function textStyleHandle(dxf: DxfWriter): string {
  const styles = dxf.tables.styleTable.records as readonly DxfStyle[]
  return styles.find((style) => style.name === REGULAR_STYLE)!.handle
}
