import { beforeEach, describe, expect, test } from 'vitest'
import type { Job } from '../../src-core/job/schema.ts'
import { Grab } from '../../src-renderer/editor/grab.ts'
import type { PointerInput } from '../../src-renderer/editor/port.ts'
import { exampleJob } from './example.ts'

const input = (x: number, extra: Partial<PointerInput> = {}): PointerInput => ({
  world: { x, y: 0 }, screen: { x, y: 0 }, pxPerMm: 1, shift: false, alt: false, touch: false, time: 0, ...extra,
}) // prettier-ignore

const job: Job = exampleJob()
let said: string[]
let grab: Grab<string, string>
/** From 0 to 100 lies a thing that can be dragged, from 100 to 200 one that stays, beyond it nothing. */
beforeEach(() => {
  said = []
  const say = (what: string) => void said.push(what)
  grab = new Grab(
    {
      pan: (dx) => say(`pan ${dx}`),
      begin: (label) => say(`begin ${label}`),
      replace: () => say('replace'),
      commit: () => say('commit'),
      cancel: () => say('cancel'),
    },
    {
      find: ({ world }) => (world.x < 100 ? 'loose' : world.x < 200 ? 'fixed' : null),
      hover: (thing) => say(`over ${thing}`),
      click: (thing) => say(`click ${thing}`),
      drag: (thing, from) =>
        thing === 'loose'
          ? { label: thing, at: ({ world }) => ({ job, shown: `by ${world.x - from.world.x}` }) }
          : null,
      show: (shown) => say(`show ${shown}`),
    },
  )
})
/** What was said since it was asked last. */
const since = () => said.splice(0)

describe('taking hold', () => {
  test('a press that stays in its place is a click', () => {
    grab.down(input(50))
    grab.move(input(52))
    expect(since()).toEqual(['show null'])
    grab.up(input(52))
    expect(since()).toEqual(['show null', 'click loose', 'over loose'])
  })

  test('a drag counts from where it was pressed and is one step', () => {
    grab.down(input(50))
    grab.move(input(60))
    grab.move(input(70))
    expect(grab.moves).toBe('thing')
    grab.up(input(70))
    expect(since()).toEqual([
      'show null', 'begin loose', 'replace', 'show by 10', 'replace', 'show by 20', 'show null', 'commit', 'over loose',
    ]) // prettier-ignore
    expect(grab.moves).toBeNull()
  })

  test.each([
    ['what stays', 150],
    ['nothing', 250],
  ])('a drag from %s moves the picture, all of the way, and clicks nothing', (_, x) => {
    grab.down(input(x))
    grab.move(input(x + 10))
    grab.move(input(x + 13))
    expect(grab.moves).toBe('picture')
    grab.up(input(x + 13))
    expect(since().filter((s) => /pan|click|commit|begin/.test(s))).toEqual(['pan 10', 'pan 3'])
  })

  test('a drag that is called off leaves no step', () => {
    grab.down(input(50))
    grab.move(input(60))
    since()
    grab.cancel()
    grab.up(input(60))
    expect(since()).toEqual(['cancel', 'show null', 'show null', 'over loose'])
  })

  test('a second press calls off the drag before it', () => {
    grab.down(input(50))
    grab.move(input(60))
    since()
    grab.down(input(50))
    expect(since()).toEqual(['cancel', 'show null'])
  })

  test('a finger that is lifted points at nothing', () => {
    grab.down(input(50, { touch: true }))
    grab.up(input(50, { touch: true }))
    expect(since()).toEqual(['show null', 'show null', 'click loose'])
  })
})
