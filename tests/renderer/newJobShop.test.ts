import { expect, it } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { EMPTY_LIBRARY } from '../../src-core/shop/schema.ts'
import { collect } from '../../src-core/shop/use.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import {
  chosenLathe,
  chosenPlate,
  ON_SCREEN,
  startedOn,
  startingChoice,
} from '../../src-renderer/state/newJobShop.ts'
import { exampleJob } from './example.ts'

const shop = exampleJob('flat-link')
const { library } = collect(shop, EMPTY_LIBRARY)
const blank = { ...blankJob(START), title: 'x' }

it('takes the library\u2019s lathe and plate, with all that is known of them, at the slowest speed', () => {
  const lathe = chosenLathe(library.lathes, startingChoice(library.lathes, 'no such name'), blank.lathe)
  const plate = chosenPlate(library.plates, startingChoice(library.plates, shop.plate.name), blank.plate)
  expect(lathe).toEqual(shop.lathe)
  expect(plate).toEqual(shop.plate)
  const job = { ...blank, ...startedOn(blank, lathe, plate) }
  expect(job.setups.map((s) => s.speed)).toEqual([45])
  expect(parseJob(serialiseJob(job)).ok).toBe(true)
})

it('an empty library leaves those on screen', () => {
  expect(startingChoice([], 'x')).toBe(ON_SCREEN)
  expect(chosenLathe(library.lathes, ON_SCREEN, blank.lathe)).toBe(blank.lathe)
})
