/** Sections of the part: of one body by its own outlines, against the polygon library, which two like ones ask. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { sectionAt } from '../../../src-core/holding/partSection.ts'
import type { Prism } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { block, bore, boreCut, jobWith, partOf } from '../../helpers/jobs.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('it is the same by outlines less discs and by the polygon library, wherever the part is moved and turned', () => {
  let bored = 0
  fc.assert(
    fc.property(
      fc.array(fc.record({ x: number(-60, 60), y: number(-40, 40), d: number(4, 30) }), { maxLength: 3 }),
      number(-180, 180),
      number(-30, 30),
      (bores, turn, x) => {
        const [body] = [block('body', { x: 10, y: 5 }, [90, 60, 20])] as [Prism]
        const cuts = bores.map((_, i) => boreCut(`B${i}`))
        const of = (bodies: readonly Prism[]) => {
          const job = jobWith({
            part: partOf(
              bodies,
              bores.map((b, i) => bore(`B${i}`, b, b.d)),
            ),
            setup: { centre: { x, y: 3 }, turn, packing: 0, cuts },
          })
          return sectionAt(mountSetup(job, job.setups[0]!.id), 0)
        }
        const [plain, asked] = [of([body]), of([body, { ...body, id: 'again' }])]
        if (!plain || !asked) return expect(plain).toBe(asked)
        // The library flattens a disc of 30 mm to within a few hundredths.
        expect(Math.abs(plain.area / asked.area - 1)).toBeLessThan(1e-3)
        expect(Math.hypot(plain.centre.x - asked.centre.x, plain.centre.y - asked.centre.y)).toBeLessThan(
          0.05,
        )
        for (const k of ['xx', 'yy'] as const) expect(Math.abs(plain[k] / asked[k] - 1)).toBeLessThan(2e-3)
        expect(Math.abs(plain.xy - asked.xy)).toBeLessThan(2e-3 * Math.max(plain.xx, plain.yy))
        const reach = (s: typeof plain) => Math.max(...s.corners().map((p) => Math.hypot(p.x, p.y)))
        expect(reach(plain)).toBeGreaterThan(reach(asked) - 0.05)
        for (const p of plain.corners()) {
          const beyond = (s: -1 | 1, k: 'x' | 'y') =>
            Math.max(...plain.around.map((q) => s * q[k])) - s * p[k]
          for (const k of ['x', 'y'] as const)
            for (const s of [-1, 1] as const) expect(beyond(s, k)).toBeGreaterThan(-1e-9)
        }
        if (plain.area < 5399) bored++
      },
    ),
    { numRuns: 120 },
  )
  expect(bored).toBeGreaterThan(30)
})
