import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { ringMoments } from '../../src-core/geometry/ringMoments.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { forceCurve, spaced } from '../../src-renderer/components/forceCurve.ts'
import { sideScene } from '../../src-renderer/components/sideView.ts'
import { svgPath } from '../../src-renderer/components/svgPath.ts'
import { namePlaces, vectorChain } from '../../src-renderer/components/vectorChain.ts'
import { slotRing } from '../../src-core/mounting/plateFace.ts'
import { DRAWING_ROOM, partCamera } from '../../src-renderer/editor/partView.ts'
import { toScreen } from '../../src-renderer/editor/camera.ts'
import { exampleJob } from './example.ts'

describe('pictures', () => {
  const job = exampleJob()
  const analysis = analyse(job, 'op10')

  test('the vectors end where the unbalance is', () => {
    const chain = vectorChain(analysis.terms, 10)
    expect(Math.hypot(chain.end.x, chain.end.y)).toBeCloseTo(analysis.unbalance.static_g_mm, 6)
    chain.links.slice(1).forEach((l, i) => expect(l.from).toEqual(chain.links[i]!.to))
    expect(chain.links.map((l) => l.item)).not.toContain('plate')
  })

  test('names of vectors that lie upon one another are moved apart, none is left out', () => {
    const terms = ['a', 'b', 'c', 'd', 'e', 'f'].map((item, i) => ({
      item,
      mass_kg: 1,
      centre_mm: { x: 0, y: 0, z: 0 },
      unbalance_g_mm: { x: i % 2 === 0 ? 30 : -30, y: 0 },
    }))
    const { links } = vectorChain(terms, 1)
    const places = [...namePlaces(links, (p) => ({ x: p.x, y: -p.y })).values()]
    expect(places).toHaveLength(6)
    // A name of two letters takes 22 by 13 px.
    places.forEach((a, i) =>
      places
        .slice(i + 1)
        .forEach((b) => expect(Math.abs(a.x - b.x) >= 22 || Math.abs(a.y - b.y) >= 13).toBe(true)),
    )
  })

  test('the force curve passes every gear that it shows, and the bare one lies above', () => {
    const curve = forceCurve(analysis, job.setups[0]!)
    for (const g of curve.gears) expect(g.force).toBe(analysis.speeds.find((s) => s.rpm === g.rpm)!.force_N)
    expect(curve.upper.at(-1)!.y).toBeGreaterThan(curve.best.at(-1)!.y)
    expect(curve.bare!.at(-1)!.y).toBeGreaterThan(curve.best.at(-1)!.y)
    expect(curve.ceilings.upper).toBeCloseTo(analysis.limits.balance!, 6)
    const none = { ...job.setups[0]!, hardware: [] }
    expect(forceCurve(analysis, none).bare).toBeNull()
  })

  test('names that would run into one another are left out, the chosen one never', () => {
    expect(spaced([10, 20, 60, 70], 0, 15).sort()).toEqual([0, 3])
    expect(spaced([10, 20, 60, 70], 2, 15).sort()).toEqual([1, 2])
  })

  test('the side view puts the part in front of plate and packing, within the bed', () => {
    const { boxes, y0 } = sideScene(mountSetup(job, 'op10'))
    const box = (kind: string) => boxes.find((b) => b.kind === kind)!
    expect(box('plate')).toMatchObject({ z0: -28, z1: 0, y1: 150 })
    expect(box('body')).toMatchObject({ z0: 12, z1: 32 })
    expect(box('bed').y1).toBe(-165)
    expect(y0).toBeLessThan(-165)
    const open = { ...job, lathe: { ...job.lathe, gap: { swing: 470, width: 130, open: true } } }
    expect(sideScene(mountSetup(open, 'op10')).boxes.find((b) => b.kind === 'bed')!.z0).toBe(130)
  })

  test('a slot is as wide and long as it says', () => {
    const ring = slotRing({ id: 'S', angle: 30, from: 50, to: 130, width: 14, kind: 'through' })
    expect(ringMoments(ring).area).toBeCloseTo(80 * 14 + Math.PI * 49, 9)
  })

  test('paths turn arcs the right way', () => {
    const half = svgPath([
      [
        { x: 0, y: 0, bulge: 1 },
        { x: 10, y: 0 },
      ],
    ])
    expect(half).toBe('M0 0 A5 5 0 0 1 10 0 L0 0 Z')
  })

  test('for drawing the part stands upright and whole, however it is mounted', () => {
    const setup = { ...job.setups[0]!, turn: 70 }
    const mounted = mountSetup({ ...job, setups: [setup] }, 'op10')
    const size = { width: 700, height: 590 }
    const view = { ...partCamera(job.part, mounted.placement, size, DRAWING_ROOM), ...size }
    const at = (x: number, y: number) => {
      const t = (70 * Math.PI) / 180
      const m = mounted.placement
      return toScreen(view, {
        x: m.x + x * Math.cos(t) - y * Math.sin(t),
        y: m.y + x * Math.sin(t) + y * Math.cos(t),
      })
    }
    const [left, right, up] = [at(-45, 0), at(140, 0), at(0, 45)]
    expect(left.y).toBeCloseTo(right.y, 6)
    expect(left.x).toBeGreaterThan(0)
    expect(right.x).toBeLessThan(700)
    expect(right.x).toBeGreaterThan(left.x)
    expect(up.y).toBeLessThan(left.y)
  })
})
