/** One line that tells a library item from its neighbours. */
import { KIND_WORDS } from '../../../src-core/hardware/words.ts'
import type { LibraryItem, Section } from '../../../src-core/shop/schema.ts'
import { plain, type Formatter } from '../../../src-core/units/format.ts'

type Value<S extends Section> = LibraryItem<S>['value']

const threadOf = (piece: Value<'hardware'>): string =>
  (piece.kind === 'clamp' ? piece.stud.thread : 'press' in piece ? piece.press?.thread : null) ?? ''

export function itemWords(section: Section, { value }: LibraryItem, format: Formatter): string {
  switch (section) {
    case 'lathes': {
      const lathe = value as Value<'lathes'>
      return `swing ${format.length(lathe.swingOverBed)}, ${lathe.speeds.stepless ? `${plain(lathe.speeds.stepless[0], 1)} to ${plain(lathe.speeds.stepless[1], 1)} rpm without steps` : `${lathe.speeds.steps.length} speeds`}`
    }
    case 'plates': {
      const plate = value as Value<'plates'>
      return `${format.length(plate.diameter)} diameter, ${plate.slots.length} slots, ${format.mass(plate.mass)}`
    }
    case 'hardware': {
      const piece = value as Value<'hardware'>
      return [KIND_WORDS[piece.kind], threadOf(piece), piece.mass ? format.mass(piece.mass) : '']
        .filter(Boolean)
        .join(', ')
    }
    case 'weights': {
      const weight = value as Value<'weights'>
      return `${format.mass(weight.mass)}, ${weight.count} in stock, ${format.length(weight.height)} high`
    }
    case 'materials':
      return format.density((value as Value<'materials'>).density)
    case 'tooling': {
      const tool = value as Value<'tooling'>
      return `${tool.tool}, ${format.cuttingSpeed(tool.speed)}, ${format.feed(tool.feed)}, ${format.length(tool.depth)} deep`
    }
  }
}
