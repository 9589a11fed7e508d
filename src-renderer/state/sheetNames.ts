/** Paper sizes as lists show them. */
import type { SheetName } from '../../src-core/drawing/sheet/sheetSizes.ts'

export const SHEET_NAMES: readonly { readonly value: SheetName; readonly label: string }[] = [
  { value: 'A4', label: 'A4' },
  { value: 'A3', label: 'A3' },
  { value: 'A2', label: 'A2' },
  { value: 'A1', label: 'A1' },
  { value: 'ANSI-A', label: 'ANSI A, letter' },
  { value: 'ANSI-B', label: 'ANSI B, ledger' },
  { value: 'ANSI-C', label: 'ANSI C' },
  { value: 'ANSI-D', label: 'ANSI D' },
]
