/** A job with all that turns turned about the axis, or as it looks in a mirror. */
import { turnPoint } from '../../src-core/geometry/angles.ts'
import type { Point, Ring } from '../../src-core/geometry/types.ts'
import { isPrism, liesAcross, type Body, type Hardware, type Job } from '../../src-core/job/schema.ts'

const isPoint = (at: object): at is Point => 'x' in at
const onPlate = (h: Hardware): boolean => !('at' in h && 'on' in h.at)

/** @param by degrees, counter-clockwise. Of jobs whose pieces say where they face. */
export function turnedJob(job: Job, by: number): Job {
  const { plate } = job
  return {
    ...job,
    plate: {
      ...plate,
      slots: plate.slots.map((s) => ({ ...s, angle: s.angle + by })),
      holes: plate.holes.map((h) => ({ ...h, ...turnPoint(h, by) })),
    },
    setups: job.setups.map((s) => ({
      ...s,
      turn: s.turn + by,
      hardware: s.hardware.map((h): Hardware => {
        if (!('at' in h)) return h
        const at = isPoint(h.at) ? turnPoint(h.at, by) : h.at
        const facing = 'facing' in h && h.facing !== undefined && onPlate(h) ? h.facing! + by : undefined
        return { ...h, at, ...(facing === undefined ? {} : { facing }) } as Hardware
      }),
    })),
  }
}

const over = <P extends Point>(p: P): P => ({ ...p, x: -p.x || 0 })
const mirroredRing = (ring: Ring): Ring => {
  // Backward, so that it winds as before: each arc then starts at the end that it had.
  const n = ring.length
  return ring.map((_, i) => {
    const { x, y } = over(ring[(2 * n - 1 - i) % n]!)
    const { bulge } = ring[(2 * n - 2 - i) % n]!
    return bulge === undefined ? { x, y } : { x, y, bulge }
  })
}
const mirroredBody = (body: Body): Body => {
  if (!isPrism(body)) throw new RangeError('a mesh is not mirrored here')
  const rings = { outline: mirroredRing(body.outline), holes: body.holes.map(mirroredRing) }
  return { ...body, ...rings, ...(liesAcross(body) ? { across: 180 - body.across } : {}) } as Body
}

/** x and what turns the other way. Of the kinds of hardware in `randomShelfJob`. */
export function mirroredJob(job: Job): Job {
  const { plate, part } = job
  return {
    ...job,
    plate: {
      ...plate,
      slots: plate.slots.map((s) => ({ ...s, angle: 180 - s.angle })),
      holes: plate.holes.map(over),
    },
    part: { ...part, bodies: part.bodies.map(mirroredBody), bores: part.bores.map(over) },
    setups: job.setups.map((s) => ({ ...s, turn: -s.turn, hardware: s.hardware.map(mirroredPiece) })),
  }
}

function mirroredPiece(h: Hardware): Hardware {
  if (h.kind === 'bolt') return { ...h, throughPart: over(h.throughPart) }
  if (!('at' in h)) return h
  const at = isPoint(h.at) ? over(h.at) : 'along' in h.at ? { ...h.at, along: -h.at.along } : h.at
  const facing = 'facing' in h && typeof h.facing === 'number' ? { facing: 180 - h.facing } : {}
  const moved = { ...h, at, ...facing } as Hardware
  if (moved.kind !== 'anglePlate' && moved.kind !== 'vee') return moved
  const own = {
    holes: moved.holes.map(over),
    bolts: moved.bolts.map((b) => (b.at ? { ...b, at: { x: b.at.x, y: -b.at.y } } : b)),
  }
  return moved.kind === 'vee'
    ? { ...moved, ...own }
    : { ...moved, ...own, slots: moved.slots.map((s) => ({ ...over(s), angle: 180 - s.angle })) }
}
