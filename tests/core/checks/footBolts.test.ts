/** The bolts of angle plates and vees on their feet, and nuts under a shelf. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { footBoltFindings } from '../../../src-core/checks/footBolts.ts'
import { rectRing } from '../../../src-core/geometry/edges.ts'
import { isShelf, type Job, type Shelf } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { withHardware } from '../../helpers/edited.ts'
import { SHELF_EXAMPLES, shelfExample } from '../../helpers/jobs.ts'
import { bearingBlock, castingInVee } from '../../helpers/shelfJobs.ts'

const changed = (job: Job, change: (shelf: Shelf) => Shelf): Job =>
  withHardware(job, (h) => (isShelf(h) ? change(h) : h))
const boltAt = (job: Job, x: number, y: number): Job =>
  changed(job, (s) => ({ ...s, bolts: s.bolts.map((b, i) => (i === 0 ? { ...b, at: { x, y } } : b)) }))
const said = (job: Job) =>
  footBoltFindings(mountSetup(job, job.setups[0]!.id)).map((f) => [f.code, f.message] as const)

test('the examples have room for theirs', () => {
  for (const name of SHELF_EXAMPLES) expect(said(shelfExample(name))).toEqual([])
  expect(said(bearingBlock())).toEqual([])
  expect(said(castingInVee())).toEqual([])
})

describe('a foot of 175 by 100, its shelf 16 thick, webs of 14 at its ends; washers of 24', () => {
  test.each([
    // Its inner face stands 73.5 from the middle.
    [-45, 61, null],
    [-45, 62, ['hardware-clash', /^The washer of a bolt of A1 stands in its own web: 0\.5 mm into it/]],
    [-45, 72, ['hardware-clash', /^The \w+ of a bolt of A1 stands in its own web/]],
    [-28, 0, null],
    [-27, 0, ['hardware-clash', /^The washer of a bolt of A1 stands in its own shelf: 1 mm into it/]],
    [-88, 0, null],
    [-96, 0, ['washer-off', /^The washer of a bolt of A1 does not lie on its foot all round/]],
    [-115, 0, ['washer-off', /./]],
  ] as const)('a bolt at %d, %d', (x, y, wanted) => {
    const found = said(boltAt(bearingBlock(), x, y))
    if (!wanted) return expect(found).toEqual([])
    expect(found).toHaveLength(1)
    expect(found[0]![0]).toBe(wanted[0])
    expect(found[0]![1]).toMatch(wanted[1])
  })
})

test('a bolt through the block of a vee, and beside its foot', () => {
  const through = said(boltAt(castingInVee(), -45, 54))
  expect(through.map((f) => f[0])).toEqual(['washer-off', 'hardware-clash'])
  expect(through[1]![1]).toMatch(/own block/)
  expect(said(boltAt(castingInVee(), -112, 54)).map((f) => f[0])).toEqual(['washer-off'])
})

describe('a nut under the shelf', () => {
  const codes = (job: Job) =>
    analyse(job, 'op10').findings.flatMap((f) => (f.code === 'hardware-clash' ? [f.item] : []))
  /** Both bolts of the base at a height over the plate, those of the foot in the middle. */
  const boltsAt = (z: number) => {
    const job = bearingBlock()
    const y = z - 14
    const holes = [-56, 56].map((x) => rectRing({ x, y }, 13, 13, 0))
    const long = changed(job, (s) =>
      s.kind === 'anglePlate'
        ? { ...s, bolts: s.bolts.slice(2), slots: s.slots.map((g) => ({ ...g, y: 62.5, length: 100 })) }
        : s,
    )
    return {
      ...long,
      part: { ...job.part, bodies: job.part.bodies.map((b) => (b.id === 'base' ? { ...b, holes } : b)) },
      setups: long.setups.map((s) => ({
        ...s,
        hardware: s.hardware.map((h) =>
          h.kind === 'bolt' ? { ...h, throughPart: { ...h.throughPart, y } } : h,
        ),
      })),
    } as Job
  }

  test('runs into the foot, with its washer of 24', () => {
    expect(codes(boltsAt(29))).toEqual([])
    expect(codes(boltsAt(27))).toContain('A1')
  })

  test('runs into a web', () => {
    const webs = (count: number) =>
      changed(bearingBlock(), (s) => (s.kind === 'anglePlate' ? { ...s, webs: { count, thickness: 14 } } : s))
    // Four stand at 80.5 and 26.8 to either side, seven at 53.7 too.
    expect(codes(webs(4))).toEqual([])
    expect(codes(webs(7))).toContain('A1')
  })
})
