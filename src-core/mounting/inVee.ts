/** The round of a part that lies in a vee: where it touches the flanks, or why it does not. */
import { onCircle, toRadians } from '../geometry/angles.ts'
import { arcFraction, ringEdges, type Arc } from '../geometry/edges.ts'
import { dot3, minus3 } from '../geometry/space/vector.ts'
import { outOf, type Pose } from '../geometry/space/pose.ts'
import { settled } from '../geometry/tolerance.ts'
import type { Point3 } from '../geometry/types.ts'
import { veeDepth } from '../job/fixtureFaults.ts'
import { isUpright, type Vee } from '../job/schema.ts'
import { columnAt } from './column.ts'
import { placePoint } from './place.ts'
import type { MountedPart } from './material.ts'
import { standsOut } from './shelf.ts'
import type { VeeRound } from './types.ts'

/** mm by which a drawn round may miss the diameter that is given, and the flanks. A sheet of paper; own choice. */
const PLAY = 0.05

/** Half the angle between the flanks, rad. */
export const halfAngle = ({ angle }: Pick<Vee, 'angle'>): number => toRadians(angle / 2)

/** mm from a round's middle up to the lands' level, negative below it, when it lies on both flanks. */
export const middleOverLands = (vee: Pick<Vee, 'angle' | 'opening'>, diameter: number): number =>
  diameter / 2 / Math.sin(halfAngle(vee)) - veeDepth(vee)

/** The middle of a round that lies in a vee, where its lands' frame begins. @param pose of the lands. */
export const middleOfRound = (
  pose: Pose,
  { along, crown, diameter }: Extract<VeeRound, { lies: true }>,
): Point3 => outOf(pose, { x: along, y: 0, z: crown - diameter / 2 })

interface Found {
  readonly arc: Arc
  readonly along: number
  readonly height: number
  readonly z0: number
  readonly z1: number
}

/** @param part in the plate's frame. @param diameter of the round, mm; null where it is not given. */
export function roundInVee(vee: Vee, pose: Pose, part: MountedPart, diameter: number | null): VeeRound {
  if (diameter === null) return { lies: false, why: 'not given' }
  const half = halfAngle(vee)
  if (diameter > vee.opening / Math.cos(half) + PLAY)
    return { lies: false, why: 'too large', most: vee.opening / Math.cos(half) }
  const wanted = middleOverLands(vee, diameter)
  if (wanted + diameter / 2 <= PLAY) return { lies: false, why: 'too small', crown: wanted + diameter / 2 }
  const rounds = roundsOf(pose, part, diameter)
  if (rounds.length === 0) return { lies: false, why: 'not drawn' }
  const off = (f: Found) => Math.hypot(f.along, f.height - wanted)
  const nearest = rounds.reduce((a, b) => (off(b) < off(a) ? b : a))
  if (off(nearest) > PLAY)
    return { lies: false, why: 'off', beside: nearest.along, off: nearest.height - wanted }
  const touching = rounds.filter(
    (f) => off(f) <= PLAY && [1, -1].every((side) => touches(f, part, contactAngle(vee, side))),
  )
  const length: [number, number] = [
    Math.min(...touching.map((f) => f.z0)),
    Math.max(...touching.map((f) => f.z1)),
  ]
  const from = standsOut(vee)
  const out: [number, number] = [Math.max(from, length[0]), Math.min(from + vee.size[2], length[1])]
  if (touching.length === 0 || out[1] - out[0] <= PLAY) return { lies: false, why: 'bare' }
  return {
    lies: true,
    diameter,
    along: nearest.along,
    crown: nearest.height + diameter / 2,
    length,
    out,
  }
}

/** Direction, rad, in the plate's frame from a round's middle to where it touches a flank. */
const contactAngle = ({ facing, angle }: Vee, side: number): number =>
  toRadians(facing + 180 + side * (90 - angle / 2))

/** Round edges of that diameter of what stands upright, in the plate's frame. */
function roundsOf(
  pose: Pose,
  { placement, bodies }: Pick<MountedPart, 'placement' | 'bodies'>,
  diameter: number,
): Found[] {
  const turn = toRadians(placement.turn)
  return bodies.flatMap(({ body, z0, z1 }) => {
    if (!isUpright(body) || body.effect !== 'adds') return []
    return ringEdges(body.outline).flatMap(({ arc }): Found[] => {
      if (!arc || Math.abs(2 * arc.radius - diameter) > PLAY) return []
      const centre = placePoint(placement, arc.centre)
      const from = minus3({ ...centre, z: 0 }, pose.origin)
      const placed = { ...arc, centre, start: arc.start + turn }
      return [
        { arc: placed, along: settled(dot3(from, pose.u)), height: settled(dot3(from, pose.n)), z0, z1 },
      ]
    })
  })
}

/** Whether another edge of the same round is there, and nothing of the part is taken away, in a direction from its middle. */
function touches(found: Found, part: MountedPart, angle: number): boolean {
  const { placement, bodies } = part
  const { centre, radius } = found.arc
  const turn = toRadians(placement.turn)
  const there = bodies.some(
    ({ body, z0, z1 }) =>
      isUpright(body) &&
      body.effect === 'adds' &&
      z0 <= found.z0 + PLAY &&
      z1 >= found.z1 - PLAY &&
      ringEdges(body.outline).some(({ arc }) => {
        if (!arc || Math.abs(arc.radius - radius) > PLAY) return false
        const c = placePoint(placement, arc.centre)
        const same = Math.hypot(c.x - centre.x, c.y - centre.y) <= PLAY
        return same && arcFraction({ ...arc, start: arc.start + turn }, angle) !== null
      }),
  )
  const skin = onCircle(centre, radius - PLAY, angle)
  const { gone } = columnAt(part, skin, part.bores)
  return there && !gone.some((g) => g.z0 < found.z1 && g.z1 > found.z0)
}
