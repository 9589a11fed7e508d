import { expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { findThread } from '../../src-core/hardware/threads.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { EMPTY_LIBRARY } from '../../src-core/shop/schema.ts'
import { collect } from '../../src-core/shop/use.ts'
import { formatter } from '../../src-core/units/format.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { packingPlace } from '../../src-renderer/editor/edits/packingPlace.ts'
import { putStraps } from '../../src-renderer/editor/edits/fourStraps.ts'
import { strapOffers } from '../../src-renderer/editor/edits/strapOffers.ts'
import { blankJob, START, START_INCH, type StartFrom } from '../../src-renderer/state/blankJob.ts'
import { cutWords } from '../../src-renderer/state/cutWords.ts'
import { startedInShop } from '../../src-renderer/state/newJobShop.ts'
import { shippedJob } from './example.ts'

const shop = shippedJob('flat-link')
const { library } = collect(shop, EMPTY_LIBRARY)
const mm = formatter('mm')
const inch = formatter('in')
/** Inches of a length in mm. */
const inInches = (v: number) => v / 25.4

test.each([
  ['a block', START, true],
  ['a disc', { ...START, shape: 'disc', length: 120, boreOffset: 20, boreStart: 30 }, true],
  ['a block in inches', START_INCH, true],
  // What a drawing will take the place of is held by nothing yet.
  ['an outline to come', { ...START, shape: 'drawn' }, false],
] as const satisfies readonly (readonly [string, StartFrom, boolean])[])(
  'a new job of %s is sound, held by four straps, and nothing is wrong with it where one starts',
  (title, from, held) => {
    const bare = blankJob({ ...from, title })
    const [first] = strapOffers(bare.plate, [], formatter(from.displayUnits), from.packing > 0)
    const put = putStraps(bare, 'op10', first!.pattern)
    const job = held ? put.job : bare
    expect(parseJob(serialiseJob(job)).ok).toBe(true)
    if (!held) return
    expect(put.ids).toHaveLength(4)
    const { findings, speeds, clamping } = analyse(job, 'op10')
    expect(findings.filter((f) => f.severity === 'stop' && f.fromRpm === 0)).toEqual([])
    expect(clamping!.factor).toBeGreaterThan(2)
    // The lathe's own limits are not known of what was typed: that is not called good.
    expect(speeds[0]!.verdict).toBe('not-judged')
  },
)

test('on a lathe and plate of the library, which are known, the same block may run where one starts', () => {
  const bare = startedInShop(blankJob({ ...START, title: 'block' }), library, shop)
  expect(bare.lathe).toEqual(shop.lathe)
  expect(bare.plate).toEqual(shop.plate)
  expect(bare.stock.map((s) => s.name)).toEqual(shop.stock.map((s) => s.name))
  const [first] = strapOffers(bare.plate, library.hardware, mm, true)
  const { ids, job } = putStraps(bare, 'op10', first!.pattern)
  expect(ids).toHaveLength(4)
  expect(analyse(job, 'op10').speeds[0]!.verdict).toBe('go')
})

test('with no library nothing of the job on screen comes in unasked', () => {
  const blank = blankJob({ ...START, title: 'x' })
  expect(startedInShop(blank, EMPTY_LIBRARY, shop)).toBe(blank)
})

test('the straps offered: the shop\u2019s own first, of the shop\u2019s standard, none with a stud wider than the slots', () => {
  const offers = strapOffers(shop.plate, library.hardware, mm, true)
  const narrowest = Math.min(...shop.plate.slots.map((s) => s.width))
  const own = library.hardware.filter((h) => h.value.kind === 'clamp').map((h) => h.name)
  expect(own.length).toBeGreaterThan(0)
  expect(offers.slice(0, own.length).map((o) => o.label)).toEqual(own)
  for (const { pattern } of offers) {
    const thread = findThread(pattern.stud.thread!)!
    expect(thread.diameter).toBeLessThanOrEqual(narrowest)
    expect(thread.standard).toBe('metric')
    expect(pattern.torque).toBeGreaterThan(0)
  }
  const threads = strapOffers(blankJob(START_INCH).plate, [], inch, true).map((o) => o.pattern.stud.thread)
  expect(threads).toEqual(['1/2-13', '3/8-16'])
  expect(strapOffers({ ...shop.plate, slots: [] }, library.hardware, mm, true)).toEqual([])
})

test('an inch shop starts from its own round sizes', () => {
  const { plate, setups, part } = blankJob(START_INCH)
  const sixteenths = [
    plate.thickness,
    plate.bore,
    ...plate.slots.flatMap((s) => [s.from, s.to, s.width]),
    setups[0]!.packing,
    part.bores[0]!.diameter,
  ].map((v) => inInches(v) * 16)
  for (const v of sixteenths) expect(v).toBeCloseTo(Math.round(v), 3)
  const [drill, bore] = setups[0]!.cuts!
  expect(drill).toMatchObject({ kind: 'drill' })
  expect(inInches((drill as { diameter: number }).diameter)).toBeCloseTo(5 / 8, 4)
  // 65 ft/min, 0.004 in a turn, 0.04 in deep.
  expect(bore!.speed / 0.3048).toBeCloseTo(65, 3)
  expect(inInches(bore!.feed)).toBeCloseTo(0.004, 5)
  expect(inInches((bore as { depth: number }).depth)).toBeCloseTo(0.04, 5)
})

test('packing put down in an inch shop is an inch across, wholly under the part, on sixteenths', () => {
  const job = blankJob({ ...START_INCH, title: 'block', length: 7 * 25.4, width: 5 * 25.4 })
  const mounted = mountSetup(job, 'op10')
  const at = packingPlace(mounted)!
  expect(at).toEqual(packingPlace(mounted, [25.4, 25.4]))
  for (const v of [at.x, at.y].map((mm) => inInches(mm) * 16)) expect(v).toBeCloseTo(Math.round(v), 3)
})

test('what is cut is said as one would say it', () => {
  const words = (boreStart: number) => {
    const from = { ...START, boreStart }
    return cutWords(blankJob(from).setups[0]!.cuts ?? [], from.boreDiameter, mm)
  }
  expect(words(0)).toBe('Drilled 16 mm, then bored to 40 mm, with HSS to start from.')
  expect(words(38)).toBe('Bored to 40 mm, with HSS to start from.')
  expect(words(40)).toMatch(/^Nothing: the bore has its finish/)
})
