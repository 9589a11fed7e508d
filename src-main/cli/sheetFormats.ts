/** Formats that a sheet can be written in. */
export const SHEET_FORMATS = ['svg', 'pdf', 'dxf', 'png'] as const
export type SheetFormat = (typeof SHEET_FORMATS)[number]

export const SHEET_FORMATS_DEFAULT: readonly SheetFormat[] = ['svg', 'pdf']
