/** Lathe and plate of a new job: from the shop's library, or those of the job on screen. */
import type { Job, Lathe, Plate } from '../../src-core/job/schema.ts'
import { slowest } from '../../src-core/job/spindle.ts'
import type { LibraryItem } from '../../src-core/shop/schema.ts'

/** No library item has an empty id. */
export const ON_SCREEN = ''

/** The library's item of the name on screen, else its first; as on screen where it has none. */
export const startingChoice = (items: readonly LibraryItem[], name: string): string =>
  (items.find((i) => i.name === name) ?? items[0])?.id ?? ON_SCREEN

export function chosenLathe(items: readonly LibraryItem<'lathes'>[], id: string, onScreen: Lathe): Lathe {
  const item = items.find((i) => i.id === id)
  return item ? { name: item.name, ...item.value } : onScreen
}

export function chosenPlate(items: readonly LibraryItem<'plates'>[], id: string, onScreen: Plate): Plate {
  const item = items.find((i) => i.id === id)
  return item ? { name: item.name, ...item.value } : onScreen
}

/** A new job's lathe, plate and setups on them: each starts at the lathe's slowest speed. */
export const startedOn = (job: Job, lathe: Lathe, plate: Plate): Pick<Job, 'lathe' | 'plate' | 'setups'> => ({
  lathe,
  plate,
  setups: job.setups.map((s) => ({ ...s, speed: slowest(lathe) })),
})
