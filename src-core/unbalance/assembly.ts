/** Masses of everything that rotates, in the plate frame, and the unbalance they make together. */

import { unbalanceCovariance, type Covariance, type DoubtfulMass } from '../doubt/covariance.ts'
import type { Uncertainties } from '../doubt/defaults.ts'
import { polar } from '../geometry/angles.ts'
import { regionMoments } from '../geometry/ringMoments.ts'
import { into } from '../geometry/space/pose.ts'
import type { Point, Point3 } from '../geometry/types.ts'
import type { Plate } from '../job/schema.ts'
import {
  NO_MASS,
  addMass,
  centreOfMass,
  moveMass,
  pointMass,
  poseMass,
  turnMass,
  type MassMoments,
} from '../mass/massMoments.ts'
import { partMass, type PartMass } from '../mass/part.ts'
import { removedAfter, removedBefore } from '../mounting/cutAway.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'

export interface Unbalance {
  readonly static_g_mm: number
  readonly static_angle_deg: number
  readonly couple_g_mm2: number
  readonly couple_angle_deg: number
  readonly upper95_g_mm: number
  readonly after_cut_g_mm: number
}

/** One contribution to the static unbalance: a vector of the polygon that should close. */
export interface UnbalanceTerm {
  readonly item: string
  readonly mass_kg: number
  /** Centre of mass, plate frame. */
  readonly centre_mm: Point3
  readonly unbalance_g_mm: Point
}

export interface Assembly {
  readonly part: PartMass
  /** Part in the plate frame, as mounted and after this setup's cut. */
  readonly mountedPart: MassMoments
  readonly cutPart: MassMoments
  readonly total: MassMoments
  /** ∫(x² + y²)dm about the axis, kg·mm². */
  readonly zz: number
  readonly terms: readonly UnbalanceTerm[]
  /** Of each piece, in the order of the setup. */
  readonly pieces: readonly MassMoments[]
  /** Static unbalance vector, g·mm. */
  readonly unbalance: Point
  readonly unbalanceAfterCut: Point
  /** Couple vector about the plate's face, g·mm². */
  readonly couple: Point
  readonly covariance: Covariance
}

/** All that turns, and its unbalance: every mass times its place, and the plate's own residual. Plate frame. */
export function assemble(mounted: Mounted, doubt: Uncertainties): Assembly {
  const { job, setup } = mounted
  const part = partMass(job.part, removedBefore(job, setup))
  const after = partMass(job.part, removedAfter(job, setup))
  const mountedPart = mountMass(mounted, part)
  const cutPart = mountMass(mounted, after)
  const pieces = mounted.pieces.map(pieceMass)
  const plate = plateMass(job.plate)
  const residual = job.plate.residual
    ? polar(job.plate.residual.amount, job.plate.residual.angle)
    : { x: 0, y: 0 }
  const total = pieces.reduce((sum, p) => addMass(sum, p.moments), addMass(plate, mountedPart))
  const grams = (m: MassMoments): Point => ({ x: m.x * 1000, y: m.y * 1000 })
  const hardware = grams(pieces.reduce((sum, p) => addMass(sum, p.moments), NO_MASS))
  const sum = (p: MassMoments): Point => ({
    x: grams(p).x + hardware.x + residual.x,
    y: grams(p).y + hardware.y + residual.y,
  })
  const partShare = job.part.weighedMass === null ? doubt.computedMass : doubt.weighedMass
  const doubtful: DoubtfulMass[] = [
    {
      mass: job.plate.mass,
      at: { x: 0, y: 0 },
      massShare: 0,
      position: job.plate.residual ? 0 : Math.hypot(doubt.plateResidual, radialOffset(job.plate)),
    },
    leaning(job.plate, [mountedPart, ...pieces.map((p) => p.moments)]),
    {
      mass: mountedPart.m,
      at: centreOfMass(mountedPart),
      massShare: partShare,
      position: doubt.centreOfMass,
    },
    ...mounted.pieces.map((p) => ({
      mass: p.mass,
      at: p.massCentre,
      // A twin is known as well as the part.
      massShare: p.item.kind === 'twin' ? partShare : doubt.weighedMass,
      position: p.item.kind === 'twin' ? Math.hypot(doubt.placing, doubt.centreOfMass) : doubt.placing,
    })),
  ]
  return {
    part,
    mountedPart,
    cutPart,
    total,
    zz: total.xx + total.yy,
    terms: [
      { item: 'plate', mass_kg: job.plate.mass, centre_mm: centreOfMass(plate), unbalance_g_mm: residual },
      {
        item: 'part',
        mass_kg: mountedPart.m,
        centre_mm: centreOfMass(mountedPart),
        unbalance_g_mm: grams(mountedPart),
      },
      ...pieces.map(({ piece, moments }) => ({
        item: piece.item.id,
        mass_kg: piece.mass,
        centre_mm: piece.massCentre,
        unbalance_g_mm: grams(moments),
      })),
    ],
    pieces: pieces.map((p) => p.moments),
    unbalance: sum(mountedPart),
    unbalanceAfterCut: sum(cutPart),
    couple: { x: total.xz * 1000, y: total.yz * 1000 },
    covariance: unbalanceCovariance(doubtful),
  }
}

/**
 * mm: what a run-out of the rim leaves unknown of the plate's centre, each way. Half the full reading is its offset, in
 * a direction that is not known; a residual that was measured holds it already.
 */
const radialOffset = ({ runOut }: Plate): number => (runOut?.radial ?? 0) / 2 / Math.SQRT2

/**
 * A face that runs out by f at the rim leans by f/D: whatever stands z in front of it lies off by z·f/D, all of it in
 * one direction that is not known.
 */
function leaning({ runOut, diameter }: Plate, inFront: readonly MassMoments[]): DoubtfulMass {
  const mass = inFront.reduce((sum, m) => sum + m.m, 0)
  const lever = inFront.reduce((sum, m) => sum + m.z, 0) / (mass || 1)
  const position = (lever * (runOut?.face ?? 0)) / diameter / Math.SQRT2
  return { mass, at: { x: 0, y: 0 }, massShare: 0, position }
}

/** Moments of a part, part frame, as they lie in the plate frame of a mounted setup. */
export function mountMass(mounted: Mounted, mass: PartMass): MassMoments {
  const { turn, x, y } = mounted.placement
  return moveMass(turnMass(mass.moments, turn), x, y, mounted.seat)
}

/** A ring of uniform thickness behind the face; slots and holes are left out of its own inertia. */
function plateMass(plate: Plate): MassMoments {
  const second = (plate.mass * ((plate.diameter / 2) ** 2 + (plate.bore / 2) ** 2)) / 4
  return {
    ...NO_MASS,
    m: plate.mass,
    z: (-plate.mass * plate.thickness) / 2,
    xx: second,
    yy: second,
    zz: (plate.mass * plate.thickness ** 2) / 3,
  }
}

function pieceMass(piece: MountedPiece): { piece: MountedPiece; moments: MassMoments } {
  return { piece, moments: massOfSolids(piece.solids) }
}

/** Mass moments of solids about the plate frame's origin: kg, kg·mm, kg·mm². */
export const massOfSolids = (solids: readonly MountedSolid[]): MassMoments =>
  solids.reduce((sum, s) => addMass(sum, solidMass(s)), NO_MASS)

/** A solid's mass as known, else at its centre, with the inertia of its outline as a uniform plate of its height. */
export function solidMass(solid: MountedSolid): MassMoments {
  const { lies, moments, massCentre } = solid
  if (moments || !lies) return uprightMass(solid)
  const { pose, ...own } = lies
  const { role, mass } = solid
  return poseMass(uprightMass({ role, mass, massCentre: into(pose, massCentre), ...own }), pose)
}

function uprightMass({ ring, holes = [], z0, z1, mass, massCentre, moments }: MountedSolid): MassMoments {
  if (moments) return moments
  const point = pointMass(mass, massCentre)
  const own = regionMoments({ outline: ring, holes }, massCentre)
  if (own.area <= 0) return point
  const cx = own.x / own.area
  const cy = own.y / own.area
  return {
    ...point,
    zz: point.zz + (mass * (z1 - z0) ** 2) / 12,
    xx: point.xx + mass * (own.xx / own.area - cx * cx),
    xy: point.xy + mass * (own.xy / own.area - cx * cy),
    yy: point.yy + mass * (own.yy / own.area - cy * cy),
  }
}
