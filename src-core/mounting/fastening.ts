/** A stud with washer and nut through slot or hole of the plate, as solids. */
import { circleRing } from '../geometry/edges.ts'
import type { Point } from '../geometry/types.ts'
import { acrossCorners, nutSize, nutVolume } from '../hardware/nuts.ts'
import { findThread, rodVolume, type Thread } from '../hardware/threads.ts'
import { washerSize, washerVolume } from '../hardware/washers.ts'
import type { At, Clamp, Plate } from '../job/schema.ts'
import { STEEL_PER_MM3 } from '../hardware/steel.ts'
import type { FacePlate } from './plateFace.ts'
import type { MountedFastening, MountedSolid } from './types.ts'

export type FasteningFields = Pick<Clamp, 'stud' | 'nut' | 'washer' | 'torque' | 'lubricated'>

/** Pitches that a stud stands out of its nut. Common practice, no source. */
export const BEYOND_NUT = 2
/** mm: studs are cut to fives where they are cut to suit. */
const LENGTH_STEP = 5
/** Diameter that stands in for a thread that is not known, so that its place is not taken by something else. mm */
const UNKNOWN = { diameter: 12, nut: { flats: 18, height: 10.8 } }

/**
 * mm of stud behind the plate's face: through a slot or plain hole the plate, and a washer and nut behind it; in a tee
 * slot the lip, or half the plate where the lip is not given; in a tapped hole its own diameter. Common practice, no source.
 */
export function anchorDepth(plate: Plate, at: At | null, thread: Thread | null): number {
  const d = thread?.diameter ?? UNKNOWN.diameter
  if (at && 'slot' in at) {
    const slot = plate.slots.find((s) => s.id === at.slot)
    if (slot?.kind === 'tee') return slot.lip ?? plate.thickness / 2
  }
  if (at && 'hole' in at && !('on' in at) && plate.holes.find((h) => h.id === at.hole)?.thread) return d
  const nut = (thread && nutSize(thread)) ?? UNKNOWN.nut
  return plate.thickness + d / 5 + nut.height + BEYOND_NUT * (thread?.pitch ?? 0)
}

/** mm of a stud that is cut or bought to suit. */
export const suitedLength = (needed: number): number => Math.ceil(needed / LENGTH_STEP - 1e-9) * LENGTH_STEP

export interface FastenedSolids {
  readonly fastening: MountedFastening
  readonly solids: readonly MountedSolid[]
}

/**
 * Stud, washer and nut that press on a face at height `grip`, mm in front of the plate.
 * @param tapped z of the face that the stud is screwed into, of a tapped hole in front of the plate; null: it goes into the plate.
 */
export function fasten(
  plate: FacePlate,
  at: At,
  point: Point,
  fields: FasteningFields,
  grip: number,
  tapped: number | null = null,
): FastenedSolids {
  const thread = findThread(fields.stud.thread ?? '')
  const d = thread?.diameter ?? UNKNOWN.diameter
  const usualNut = (thread && nutSize(thread)) ?? UNKNOWN.nut
  const nut = fields.nut ? { flats: fields.nut.acrossFlats, height: fields.nut.height } : usualNut
  const usual = (thread && washerSize(thread)) ?? { hole: d, outside: 2 * d, thickness: d / 5 }
  const washer = fields.washer ?? { diameter: usual.outside, thickness: usual.thickness }
  const anchor = tapped === null ? anchorDepth(plate, at, thread) : d - tapped
  const seat = grip + washer.thickness
  const needed = anchor + seat + nut.height + BEYOND_NUT * (thread?.pitch ?? 0)
  const given = fields.stud.length
  // What it is to press on may lie behind the face: a rod has some length all the same.
  const suited = suitedLength(Math.max(needed, d))
  const length = given === 'suit' ? suited : (given ?? null)
  const whole = length ?? suited
  const front = whole - anchor
  const inHole = 'hole' in at && !('on' in at) && plate.holes.find((h) => h.id === at.hole)?.thread
  const behind = tapped === null && !inHole
  const steel = (volume: number) => volume * STEEL_PER_MM3
  const solid = (
    role: MountedSolid['role'],
    diameter: number,
    z0: number,
    z1: number,
    mass: number,
  ): MountedSolid => ({
    role,
    ring: circleRing(point, diameter),
    z0,
    z1,
    mass,
    massCentre: { ...point, z: (z0 + z1) / 2 },
  })
  const nutMass = thread ? steel(nutVolume(thread, nut)) : 0
  const washerMass = thread
    ? steel(washerVolume({ ...washer, outside: washer.diameter, hole: usual.hole }))
    : 0
  // What holds it behind: nut and washer, or the head of a tee bolt, which weighs about as much. Under a shelf there are
  // webs and a foot beside it, so there it is as wide as it is.
  const under = -anchor + BEYOND_NUT * (thread?.pitch ?? 0)
  const last = plate.face
    ? [
        solid('washer', washer.diameter, -plate.thickness - d / 5, -plate.thickness, washerMass),
        solid('nut', acrossCorners(nut), under, under + nut.height, nutMass),
      ]
    : [solid('nut', d, -anchor, -anchor + nut.height, nutMass)]
  return {
    fastening: { thread, at: point, grip, washer, nut, needed, length, front, back: -anchor },
    solids: [
      solid('stud', d, -anchor, Math.max(front, seat), thread ? steel(rodVolume(thread, whole)) : 0),
      solid('washer', washer.diameter, grip, seat, washerMass),
      solid('nut', acrossCorners(nut), seat, seat + nut.height, nutMass),
      ...(behind ? last : []),
    ],
  }
}
