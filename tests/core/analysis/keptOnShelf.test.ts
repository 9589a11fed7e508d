/** What is kept of a part on a shelf while both are turned, moved and changed makes no analysis other than it is on its own. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import { isShelf, type Hardware, type Job, type Setup } from '../../../src-core/job/schema.ts'
import { placePoint } from '../../../src-core/mounting/place.ts'
import { shelfExample } from '../../helpers/jobs.ts'
import { bearingBlock, castingInBlock, castingInVee } from '../../helpers/shelfJobs.ts'

const changed = (job: Job, change: (s: Setup) => Setup): Job => ({
  ...job,
  setups: job.setups.map((s, i) => (i === 0 ? change(s) : s)),
})

const pieces = (setup: Setup, change: (h: Hardware) => Hardware): Setup => ({
  ...setup,
  hardware: setup.hardware.map(change),
})

/** Everything that is on the plate with the part, turned about the axis. */
const turnedTogether = (setup: Setup, by: number): Setup =>
  pieces({ ...setup, turn: setup.turn + by }, (h) =>
    isShelf(h) && 'x' in h.at
      ? { ...h, facing: h.facing + by, at: placePoint({ turn: by, x: 0, y: 0 }, h.at) }
      : h,
  )

const MOVES = {
  together: (s: Setup, by: number) => turnedTogether(s, 40 * by),
  partAlone: (s: Setup, by: number) => ({ ...s, turn: s.turn + (by > 0.5 ? 90 : by) }),
  shelf: (s: Setup, by: number) =>
    pieces(s, (h) => (isShelf(h) && 'x' in h.at ? { ...h, at: { ...h.at, x: h.at.x + by } } : h)),
  partAndShelf: (s: Setup, by: number) =>
    'x' in s.centre
      ? pieces({ ...s, centre: { ...s.centre, x: s.centre.x - by } }, (h) => {
          const step = placePoint({ turn: s.turn, x: 0, y: 0 }, { x: by, y: 0 })
          return isShelf(h) && 'x' in h.at ? { ...h, at: { x: h.at.x + step.x, y: h.at.y + step.y } } : h
        })
      : s,
  along: (s: Setup, by: number) =>
    pieces(s, (h) => {
      if (h.kind === 'bolt') return { ...h, throughPart: { ...h.throughPart, y: h.throughPart.y + 4 * by } }
      return 'at' in h && 'along' in h.at ? { ...h, at: { ...h.at, along: h.at.along + by } } : h
    }),
  facing: (s: Setup, by: number) =>
    pieces(s, (h) => (h.kind === 'clamp' ? { ...h, facing: h.facing + by } : h)),
  standOff: (s: Setup, by: number) =>
    s.seat ? { ...s, seat: { ...s.seat, standOff: (s.seat.standOff ?? 0) + 3 * Math.abs(by) } } : s,
  round: (s: Setup, by: number) =>
    s.seat?.diameter ? { ...s, seat: { ...s.seat, diameter: s.seat.diameter + (by > 0 ? 0 : by) } } : s,
  packing: (s: Setup, by: number) => ({ ...s, packing: by > 0 ? 0 : 2 }),
  torque: (s: Setup, by: number) =>
    pieces(s, (h) => (h.kind === 'bolt' || h.kind === 'clamp' ? { ...h, torque: 40 + 20 * by } : h)),
  speed: (s: Setup, by: number) => ({ ...s, speed: by > 0 ? 110 : 45 }),
  thickness: (s: Setup, by: number) =>
    pieces(s, (h) => (h.kind === 'anglePlate' ? { ...h, thickness: 16 + by } : h)),
} satisfies Record<string, (s: Setup, by: number) => Setup>

const move = fc.record({
  what: fc.constantFrom('together' as const, ...(Object.keys(MOVES) as (keyof typeof MOVES)[])),
  by: fc.double({ min: -1, max: 1, noNaN: true }),
})

const STARTS: readonly [string, Job][] = [
  ['a block on an angle plate', shelfExample('bearing-block')],
  ['the same by itself', bearingBlock()],
  ['a casting in a vee', shelfExample('round-casting')],
  ['the same with other straps', castingInVee()],
  ['a casting in a loose block on an angle plate', castingInBlock()],
]

describe.each(STARTS)('%s', (_, start) => {
  const of = (job: Job): Analysis => analyse(job, job.setups[0]!.id)

  test('is analysed after each move as a job that was never seen before', () => {
    fc.assert(
      fc.property(fc.array(move, { minLength: 4, maxLength: 8 }), (moves) => {
        let job = start
        for (const { what, by } of moves) {
          job = changed(job, (s) => MOVES[what](s, by))
          expect(of(job)).toEqual(of(structuredClone(job)))
        }
      }),
      { numRuns: 7 },
    )
  })

  test('turned together with what it stands on is held as well', () => {
    const before = of(start)
    for (const by of [0.1, 33.3, 90, 217]) {
      const after = of(changed(start, (s) => turnedTogether(s, by)))
      const [was, is] = [before.joints[0]!, after.joints[0]!]
      expect(is.factor ?? 0).toBeCloseTo(was.factor ?? 0, 6)
      expect(is.rpm_at_2 ?? 0).toBeCloseTo(was.rpm_at_2 ?? 0, 4)
      expect(Math.hypot(is.at?.x ?? 0, is.at?.y ?? 0)).toBeCloseTo(
        Math.hypot(was.at?.x ?? 0, was.at?.y ?? 0),
        6,
      )
    }
  })
})
