/** What lies one upon the other is told apart on the sheet. */
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { pilesOf } from '../../../src-core/drawing/views/piles.ts'
import { seenSolids } from '../../../src-core/drawing/views/stackedSolids.ts'
import { standing } from '../../../src-core/drawing/views/standing.ts'
import { plainPrimitives } from '../../../src-core/drawing/model/plain.ts'
import type { Hardware, Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { lettering } from '../../helpers/sheetText.ts'

const bracket = shippedJob('bearing-bracket')
const withMore = (...more: Hardware[]): Job => ({
  ...bracket,
  setups: bracket.setups.map((s) => ({ ...s, hardware: [...s.hardware, ...more] })),
})
const lying = (
  id: string,
  base: number,
  footprint: { rect: [number, number] } | { circle: number },
  y = 60,
): Hardware => ({
  ...{ id, name: '', kind: 'packing', mass: 0.05, at: { x: 95, y }, footprint },
  ...{ facing: 30, base, height: 6, fixed: true },
})
const six = withMore(...[0, 1, 2, 3, 4, 5].map((i) => lying(`q${i}`, 6 * i, { rect: [40, 20] })))

describe('six packings of a pile', () => {
  it('are one pile, uppermost first', () => {
    const { pieces } = mountSetup(six, 'op10')
    const first = pieces.findIndex((p) => p.item.id === 'q0')
    expect(pilesOf(pieces).slice(first)).toEqual([
      null,
      null,
      null,
      null,
      null,
      [4, 3, 2, 1, 0].map((k) => first + k),
    ])
  })

  it('have a balloon each, on one leader, which ends on the uppermost one’s', () => {
    const [sheet] = setupSheet(six, 'op10', analyse(six, 'op10'), { sheet: 'A3' })
    const all = plainPrimitives(sheet!)
    const balloons = all.filter((p) => p.kind === 'circle' && p.layer === 'outline-thin' && p.radius === 4)
    const numbers = [...mountSetup(six, 'op10').pieces.keys()].map((i) => String(i + 1))
    const at = new Map(
      numbers.map((n) => {
        const found = lettering(sheet!).filter(
          ({ text, primitive: { at: c } }) =>
            text === n &&
            balloons.some((b) => b.kind === 'circle' && Math.hypot(b.centre.x - c.x, b.centre.y - c.y) < 2.5),
        )
        expect(found, n).toHaveLength(1)
        return [n, found[0]!.primitive.at]
      }),
    )
    const pile = numbers.slice(-6).reverse()
    pile.slice(1).forEach((n, i) => {
      const [one, next] = [at.get(pile[i]!)!, at.get(n)!]
      expect(Math.abs(one.x - next.x)).toBeLessThan(1e-9)
      expect(Math.abs(one.y - next.y)).toBeCloseTo(8, 6)
    })
    expect(lettering(sheet!).map((t) => t.text)).toContain('a pile: at the leader the uppermost')
  })

  it('are no pile where one is seen past another, or stands elsewhere', () => {
    const narrow = withMore(lying('q0', 0, { circle: 40 }), lying('q1', 6, { circle: 30 }))
    expect(pilesOf(mountSetup(narrow, 'op10').pieces)).not.toContain(null)
    const apart = withMore(lying('q0', 0, { circle: 30 }), lying('q1', 6, { circle: 30 }, 61))
    expect(pilesOf(mountSetup(apart, 'op10').pieces)).not.toContain(null)
  })
})

describe('two weights of a stack', () => {
  const mounted = mountSetup(bracket, 'op10')
  const stack = mounted.pieces.find((p) => p.item.kind === 'weight')!

  it('are two solids that fill the place of the one they turn as', () => {
    const [whole] = stack.solids.filter((s) => s.role === 'weight')
    const [lower, upper, ...more] = seenSolids(stack).filter((s) => s.role === 'weight')
    expect(more).toEqual([])
    expect([lower!.z0, upper!.z1]).toEqual([whole!.z0, whole!.z1])
    expect(lower!.z1).toBe(upper!.z0)
    expect(lower!.mass + upper!.mass).toBeCloseTo(whole!.mass, 12)
  })

  it('are cut apart in the section', () => {
    const cut = standing(mounted).sliced.filter((s) => s.role === 'weight')
    const heights = new Set(cut.map((s) => `${s.z0.toFixed(3)} ${s.z1.toFixed(3)}`))
    expect(heights.size).toBe(2)
  })
})
