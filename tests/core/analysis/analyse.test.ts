import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import {
  EXAMPLES,
  bore,
  deepFreeze,
  disc,
  exampleJob,
  jobWith,
  largeJob,
  partOf,
  piece,
} from '../../helpers/jobs.ts'
import { standingOf } from '../../../src-core/findings/finding.ts'
import { expectNear } from '../../helpers/near.ts'

describe('analyse', () => {
  it('shows every gear and the chosen speed once, rising', () => {
    const speeds = (speed: number | null) =>
      analyse(jobWith({ setup: { speed } }), 'op10').speeds.map((s) => s.rpm)
    expect(speeds(110)).toEqual([45, 70, 110, 180, 280, 440])
    expect(speeds(123.4)).toEqual([45, 70, 110, 123.4, 180, 280, 440])
    expect(speeds(null)).toEqual([45, 70, 110, 180, 280, 440])
  })

  it('gives surface speed at the finish bore: π·d·n', () => {
    const job = jobWith({
      part: partOf([disc('d', { x: 0, y: 0 }, 100, 10)], [bore('A', { x: 0, y: 0 }, 31)]),
      setup: { centre: { bore: 'A' }, speed: 155 },
    })
    const row = analyse(job, 'op10').speeds.find((s) => s.rpm === 155)!
    // A 31 mm bore at 155 rpm is about 15 m/min.
    expectNear(row.surface_speed_m_min!, 15.0954, { rel: 1e-4 })
    expect(analyse(jobWith(), 'op10').speeds[0]!.surface_speed_m_min).toBeNull()
  })

  it('throws on an unknown setup only', () => {
    expect(() => analyse(jobWith(), 'op99')).toThrow(RangeError)
    expect(() => analyse(jobWith(), 'op10')).not.toThrow()
  })

  it('changes nothing in a frozen job, whatever it is about, and gives the same again', () => {
    for (const job of [...EXAMPLES.map(exampleJob), largeJob()].map(deepFreeze)) {
      const before = JSON.stringify(job)
      for (const { id } of job.setups) expect(analyse(job, id)).toEqual(analyse(structuredClone(job), id))
      expect(JSON.stringify(job)).toBe(before)
    }
  })

  it('turns round with everything on the plate: the same figures, the heavy side turned', () => {
    // Pieces are turned by hand here, the part by its setup.
    const at = (turn: number) => {
      const a = (turn * Math.PI) / 180
      const place = (x: number, y: number) => ({
        x: x * Math.cos(a) - y * Math.sin(a),
        y: x * Math.sin(a) + y * Math.cos(a),
      })
      const part = partOf([disc('d', { x: 33, y: 12 }, 120, 20)])
      return analyse(
        jobWith({
          part,
          plate: { residual: { amount: 700, angle: 40 + turn } },
          setup: { turn, hardware: [piece('w', 1.1, place(-100, 20)), piece('v', 0.4, place(5, 120))] },
        }),
        'op10',
      )
    }
    const still = at(0)
    for (const turn of [17, 90, 213.7]) {
      const a = at(turn)
      expectNear(a.unbalance.static_g_mm, still.unbalance.static_g_mm, { rel: 1e-9 })
      expectNear(a.unbalance.upper95_g_mm, still.unbalance.upper95_g_mm, { rel: 1e-7 })
      expectNear(a.unbalance.couple_g_mm2, still.unbalance.couple_g_mm2, { rel: 1e-9 })
      const heavy = (still.unbalance.static_angle_deg + turn) % 360
      expectNear(a.unbalance.static_angle_deg, heavy, { abs: 1e-7 })
      expectNear(a.assembly.inertia_kg_mm2.zz, still.assembly.inertia_kg_mm2.zz, { rel: 1e-12 })
    }
  })

  it('sorts its findings worst first', () => {
    const rank = { stop: 0, 'not-judged': 1, caution: 2, note: 3 }
    const job = jobWith({
      plate: { ratedSpeed: null },
      lathe: { barReach: null },
      part: partOf([disc('d', { x: 60, y: 0 }, 230, 20)]),
      setup: { speed: 440, hardware: [piece('w', 3, { x: 160, y: 0 })] },
    })
    const ranks = analyse(job, 'op10').findings.map((f) => rank[standingOf(f)])
    expect(new Set(ranks).size).toBe(4)
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
  })
})
