/** What a new job takes of the shop: lathe, plate and weights from its library, or those of the job on screen. */
import type { Job, Lathe, Plate } from '../../src-core/job/schema.ts'
import { slowest } from '../../src-core/job/spindle.ts'
import type { Library, LibraryItem } from '../../src-core/shop/schema.ts'
import { copyIntoJob } from '../../src-core/shop/use.ts'

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

/** The library's weights as a job's stock; those on screen where it has none. */
export const chosenStock = (weights: Library['weights'], onScreen: Job): Job['stock'] =>
  weights.length === 0
    ? onScreen.stock
    : weights.reduce<Job>((job, item) => copyIntoJob(job, '', 'weights', item), { ...onScreen, stock: [] })
        .stock

/** A new job's lathe, plate and setups on them: each starts at the lathe's slowest speed. */
export const startedOn = (job: Job, lathe: Lathe, plate: Plate): Pick<Job, 'lathe' | 'plate' | 'setups'> => ({
  lathe,
  plate,
  setups: job.setups.map((s) => ({ ...s, speed: slowest(lathe) })),
})

/** As the shop's library has it, or as on screen where it has none: what one begins with unasked. */
export function startedInShop(job: Job, library: Library, onScreen: Job): Job {
  const { lathes, plates, weights } = library
  if (lathes.length === 0 && plates.length === 0) return job
  return {
    ...job,
    stock: chosenStock(weights, onScreen),
    ...startedOn(
      job,
      chosenLathe(lathes, startingChoice(lathes, onScreen.lathe.name), onScreen.lathe),
      chosenPlate(plates, startingChoice(plates, onScreen.plate.name), onScreen.plate),
    ),
  }
}
