import type { Hardware, HardwareKind, OnFixture } from '../job/schema.ts'

/** What a piece of each kind is called. */
export const KIND_WORDS: Readonly<Record<HardwareKind, string>> = {
  clamp: 'clamp',
  weight: 'weight',
  bolt: 'bolt',
  stop: 'stop block',
  dowel: 'dowel',
  fixture: 'sub-plate',
  anglePlate: 'angle plate',
  vee: 'vee',
  twin: 'twin of the part',
  packing: 'packing',
  bracket: 'bracket',
  counterweight: 'counterweight',
  press: 'clamp',
  other: 'piece',
}

/** What pieces that press the part are called together. */
export const holderWord = (items: readonly Hardware[]): 'bolt' | 'clamp' =>
  items.length > 0 && items.every((item) => item.kind === 'bolt') ? 'bolt' : 'clamp'

/** Where on a sub-plate, a shelf or a vee: `hole H1 of F1`; `A1, 20 mm along, 45 mm out`. */
export const onFixtureWords = (at: OnFixture, length: (mm: number) => string): string =>
  'hole' in at ? `hole ${at.hole} of ${at.on}` : `${at.on}, ${length(at.along)} along, ${length(at.out)} out`
