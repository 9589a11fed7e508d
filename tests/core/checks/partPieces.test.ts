/** Whether the part hangs together, against a solid kernel and by hand. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { partPieces } from '../../../src-core/checks/partPieces.ts'
import type { Part, Prism } from '../../../src-core/job/schema.ts'
import { block, bore, boreCut, disc, jobWith, partOf } from '../../helpers/jobs.ts'
import { Solid, seeded } from '../../helpers/solids.ts'

const O = { x: 0, y: 0 }
const count = (...bodies: Part['bodies'][number][]) => partPieces(partOf(bodies), [], 0).length
const plate = block('plate', O, [100, 60, 20])

test.each<[string, Prism[], number]>([
  ['one body', [plate], 1],
  ['a boss on it', [plate, disc('boss', O, 30, 10, { base: 20 })], 1],
  ['a boss a millimetre above it', [plate, disc('boss', O, 30, 10, { base: 21 })], 2],
  ['a boss off by what a drawing rounds', [plate, disc('boss', O, 30, 10, { base: 20.01 })], 1],
  ['a rib that shares a side', [plate, block('rib', { x: 60, y: 0 }, [20, 10, 20])], 1],
  ['a rib a millimetre off the side', [plate, block('rib', { x: 61, y: 0 }, [20, 10, 20])], 2],
  ['a rib beside it, above its face', [plate, block('rib', { x: 60, y: 0 }, [20, 10, 20], { base: 25 })], 2],
  ['a boss that meets only a corner', [plate, block('corner', { x: 60, y: 40 }, [20, 20, 20])], 2],
  ['a groove right through', [plate, block('groove', O, [2, 80, 20], { effect: 'removes' })], 2],
  [
    'a groove that leaves a floor',
    [plate, block('groove', O, [2, 80, 15], { effect: 'removes', base: 5 })],
    1,
  ],
  [
    'a ring groove that frees the core',
    [plate, { ...disc('groove', O, 40, 20, { effect: 'removes' }), holes: [disc('', O, 30, 1).outline] }],
    2,
  ],
  [
    'the core held by its foot',
    [
      plate,
      { ...disc('groove', O, 40, 15, { effect: 'removes', base: 5 }), holes: [disc('', O, 30, 1).outline] },
    ],
    1,
  ],
])('%s', (_, bodies, pieces) => {
  expect(count(...bodies)).toBe(pieces)
})

test('random blocks, adding and removing: as many pieces as the kernel finds', () => {
  const random = seeded(20)
  const between = (low: number, high: number) => low + (high - low) * random()
  let several = 0
  for (let k = 0; k < 60; k++) {
    const bodies = Array.from({ length: 6 }, (_, i) =>
      block(
        `b${i}`,
        { x: between(-50, 50), y: between(-50, 50) },
        [between(10, 60), between(10, 60), between(8, 30)],
        {
          base: between(0, 40),
          effect: i > 4 ? 'removes' : 'adds',
        },
      ),
    )
    const solids = bodies.map((b) => Solid.cube(sizeOf(b), false).translate(...cornerOf(b)))
    const whole = Solid.union(solids.slice(0, 5)).subtract(solids[5]!)
    // Removing bodies take away what all others add, as in the kernel.
    const pieces = whole.decompose().filter((s) => s.volume() > 1)
    if (pieces.length > 1) several++
    expect(partPieces(partOf(bodies), [], 0).filter((p) => p.volume > 1).length, `draw ${k}`).toBe(
      pieces.length,
    )
  }
  expect(several).toBeGreaterThan(10)
})

function sizeOf({ outline, thickness }: Prism): [number, number, number] {
  const xs = outline.map((v) => v.x)
  const ys = outline.map((v) => v.y)
  return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), thickness]
}
function cornerOf({ outline, base }: Prism): [number, number, number] {
  return [Math.min(...outline.map((v) => v.x)), Math.min(...outline.map((v) => v.y)), base]
}

test('what does not touch the rest stops the job, in place and by name', () => {
  const loose = block('loose', { x: 80, y: 0 }, [20, 20, 20])
  const job = jobWith({ part: partOf([plate, loose], [bore('A', O, 30)]) })
  const found = analyse(job, 'op10').findings.find((f) => f.code === 'part-in-pieces')
  expect(found).toMatchObject({ effect: 'stop', fromRpm: 0, item: 'loose' })
  expect(found?.message).toMatch(/body loose does not touch the rest/)
  expect(found?.at?.x).toBeCloseTo(80, 0)
})

test('a cut that parts the work stops it; the same part before the cut is one', () => {
  const strip = partOf([block('strip', O, [100, 20, 10])], [bore('A', O, 30)])
  const job = jobWith({ part: strip })
  const said = (bored: boolean) =>
    analyse(
      { ...job, setups: job.setups.map((s) => ({ ...s, cuts: bored ? [boreCut('A')] : [] })) },
      'op10',
    ).findings.find((f) => f.code === 'part-in-pieces')?.message
  expect(said(true)).toMatch(/^The cut parts the work/)
  expect(said(false)).toBeUndefined()
})
