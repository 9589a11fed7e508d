/** What is kept between the frames of a drag changes no result: each frame is what it would be on its own. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { regionFaults } from '../../../src-core/geometry/validate.ts'
import type { Region, Vertex } from '../../../src-core/geometry/types.ts'
import { isPrism, type Job } from '../../../src-core/job/schema.ts'
import { movePiece } from '../../../src-renderer/editor/edits/hardware.ts'
import { setCentre, setTurn } from '../../../src-renderer/editor/edits/mounting.ts'
import { setRing } from '../../../src-renderer/editor/edits/bodies.ts'
import { mm } from '../../helpers/arbitraries.ts'
import { exampleJob } from '../../helpers/jobs.ts'

/** A wavy ring of straight and arc edges, long enough to be kept. */
function wavy(count: number, radius: number, x: number, y: number): Vertex[] {
  return Array.from({ length: count }, (_, i) => {
    const t = (2 * Math.PI * i) / count
    const r = radius * (1 + 0.1 * Math.cos(3 * t))
    return { x: x + r * Math.cos(t), y: y + r * Math.sin(t), bulge: [0, 0.08, -0.05][i % 3]! }
  })
}

const outlineOf = (job: Job, ring: number): readonly Vertex[] => {
  const body = job.part.bodies.find(isPrism)!
  return ring === 0 ? body.outline : body.holes[ring - 1]!
}

function dragged(): Job {
  const job = exampleJob('flat-link')
  const body = job.part.bodies.find(isPrism)!
  const whole = setRing(job, body.id, 0, wavy(120, 60, 25, 0))
  const holes = [wavy(48, 10, 55, 18), wavy(40, 10, 55, -18)]
  return {
    ...whole,
    part: {
      ...whole.part,
      bodies: whole.part.bodies.map((b) => (b.id === body.id ? { ...b, holes } : b)),
      bores: [
        ...whole.part.bores.slice(0, 1),
        { id: 'Z', x: 20, y: 40, diameter: 18, start: 8, depth: null },
      ],
    },
    setups: whole.setups.slice(0, 1),
  }
}

const move = fc.record({
  what: fc.constantFrom('vertex', 'vertex', 'bulge', 'clamp', 'centre', 'turn'),
  ring: fc.integer({ min: 0, max: 2 }),
  at: fc.nat(500),
  dx: mm(-12, 12),
  dy: mm(-12, 12),
  /** Most moves of a vertex are small, so that outlines stay sound for a while. */
  share: fc.constantFrom(0.02, 0.1, 1, 2),
})
type Move = typeof move extends fc.Arbitrary<infer M> ? M : never

function moved(job: Job, m: Move): Job {
  const setup = job.setups[0]!
  const body = job.part.bodies.find(isPrism)!
  switch (m.what) {
    case 'vertex':
    case 'bulge': {
      const ring = outlineOf(job, m.ring)
      const i = m.at % ring.length
      const change = (v: Vertex) =>
        m.what === 'bulge'
          ? { ...v, bulge: m.share * m.dx }
          : { ...v, x: v.x + m.share * m.dx, y: v.y + m.share * m.dy }
      return setRing(
        job,
        body.id,
        m.ring,
        ring.map((v, k) => (k === i ? change(v) : v)),
      )
    }
    case 'clamp': {
      const piece = setup.hardware[m.at % setup.hardware.length]!
      return movePiece(job, setup.id, piece.id, { x: 8 * m.dx, y: 8 * m.dy })
    }
    case 'centre':
      return setCentre(job, setup.id, { x: m.dx, y: m.dy })
    case 'turn':
      return setTurn(job, setup.id, 30 * m.dx)
  }
}

describe('a drag', () => {
  test('analyses each frame as a job that was never seen before', () => {
    const start = dragged()
    fc.assert(
      fc.property(fc.array(move, { minLength: 1, maxLength: 6 }), (moves) => {
        let job = start
        for (const m of moves) {
          job = moved(job, m)
          const id = job.setups[0]!.id
          expect(analyse(job, id)).toEqual(analyse(structuredClone(job), id))
        }
      }),
    )
  })

  test('finds the crossings of a moved vertex as if the outline were new', () => {
    const other: Region = { outline: wavy(7, 5, 0, 0), holes: [] }
    const start = dragged().part.bodies.find(isPrism)!
    let faulty = 0
    let sound = 0
    fc.assert(
      fc.property(fc.array(move, { minLength: 1, maxLength: 4 }), (moves) => {
        let region: Region = { outline: start.outline, holes: start.holes }
        for (const m of moves) {
          const rings = [region.outline, ...region.holes].map((ring, r) =>
            r !== m.ring
              ? ring
              : ring.map((v, i) =>
                  i === m.at % ring.length ? { ...v, x: v.x + m.share * m.dx, y: v.y + m.share * m.dy } : v,
                ),
          )
          region = { outline: rings[0]!, holes: rings.slice(1) }
          const found = regionFaults(region)
          // Another region forgets the one before: the same again is swept whole.
          regionFaults(other)
          expect(found).toEqual(regionFaults(structuredClone(region)))
          if (found.length > 0) faulty++
          else sound++
        }
      }),
    )
    expect(Math.min(faulty, sound), `${faulty} faulty, ${sound} sound`).toBeGreaterThan(5)
  })
})
