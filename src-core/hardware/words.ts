import type { HardwareKind } from '../job/schema.ts'

/** What a piece of each kind is called. */
export const KIND_WORDS: Readonly<Record<HardwareKind, string>> = {
  clamp: 'clamp',
  weight: 'weight',
  bolt: 'bolt',
  stop: 'stop block',
  dowel: 'dowel',
  fixture: 'sub-plate',
  twin: 'twin of the part',
  packing: 'packing',
  bracket: 'bracket',
  counterweight: 'counterweight',
  press: 'clamp',
  other: 'piece',
}
