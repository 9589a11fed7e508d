/** How thick an angle plate must be to be believed. */
import { describe, expect, test } from 'vitest'
import { shelfFindings } from '../../../src-core/checks/shelves.ts'
import { leastThickness } from '../../../src-core/hardware/shelves.ts'
import type { Hardware } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shelfExample } from '../../helpers/jobs.ts'

describe('least thickness', () => {
  // IS 2554:1971, table 1, webbed and unwebbed, as reproduced: sizes 1, 2, 3 and 6.
  test.each([
    [100, 13, 16],
    [125, 16, 19],
    [175, 22, 25],
    [450, 35, 38],
  ])('a shelf %d out', (out, webbed, bare) => {
    const size = [200, 100, out] as const
    expect(leastThickness({ size, webs: { count: 2, thickness: webbed } })).toBe(webbed)
    expect(leastThickness({ size, webs: { count: 0, thickness: webbed } })).toBe(bare)
    expect(leastThickness({ size, webs: { count: 2, thickness: 1 } })).toBe(bare)
  })
  test('between the sizes straight, below them down to nothing, beyond them straight on', () => {
    const webs = { count: 2, thickness: 50 }
    expect(leastThickness({ size: [200, 100, 150], webs })).toBeCloseTo(19, 9)
    expect(leastThickness({ size: [200, 100, 50], webs })).toBeCloseTo(6.5, 9)
    expect(leastThickness({ size: [200, 100, 550], webs })).toBeCloseTo(38, 9)
  })
})

test.each([
  ['bearing-block' as const, (h: Hardware) => (h.kind === 'anglePlate' ? { ...h, thickness: 15.9 } : h)],
  [
    'bearing-block' as const,
    (h: Hardware) => (h.kind === 'anglePlate' ? { ...h, webs: { ...h.webs, count: 0 } } : h),
  ],
  [
    'round-casting' as const,
    (h: Hardware) => (h.kind === 'vee' ? { ...h, foot: { ...h.foot, thickness: 11 } } : h),
  ],
])('a fixture of %s made thinner is not known to stand', (name, thinner) => {
  const job = shelfExample(name)
  const [setup] = job.setups
  const found = (hardware: readonly Hardware[]) =>
    shelfFindings(mountSetup({ ...job, setups: [{ ...setup!, hardware }] }, setup!.id)).map((f) => f.code)
  expect(found(setup!.hardware)).not.toContain('fixture-thin')
  expect(found(setup!.hardware.map(thinner))).toContain('fixture-thin')
})
