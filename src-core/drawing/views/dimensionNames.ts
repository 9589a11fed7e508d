/** Dimensions of a setup drawing by name, for lists and notes. */
const NAMES: Readonly<Record<string, string>> = {
  'part-left': 'left edge of the part',
  'part-right': 'right edge of the part',
  'part-top': 'upper edge of the part',
  'part-bottom': 'lower edge of the part',
  'part-depth': 'depth of the part',
  'plate-diameter': 'diameter of the plate',
  'plate-thickness': 'thickness of the plate',
  'cross-slide': 'cross-slide below the axis',
  'bar-reach': 'reach of the bar',
  bed: 'bed below the axis',
  clearance: 'clearance to the bed',
  'sub-plate': 'thickness of the sub-plate',
  packing: 'packing',
  overhang: 'overhang',
}
const KINDS = {
  diameter: 'diameter of bore',
  distance: 'distance from the axis of bore',
  station: 'station of',
  edge: 'distance from the axis of edge',
} as const

/** What a dimension or label measures, in words; the id itself where it says that already. */
export function dimensionName(id: string): string {
  if (Object.hasOwn(NAMES, id)) return NAMES[id]!
  const colon = id.indexOf(':')
  const kind = id.slice(0, Math.max(0, colon))
  return Object.hasOwn(KINDS, kind) ? `${KINDS[kind as keyof typeof KINDS]} ${id.slice(colon + 1)}` : id
}

/** Whether a dimension has a line to move; of diameters on a leader and of stations it is text and balloon that move. */
export const hasLine = (id: string): boolean => !/^(diameter|station):/.test(id)
