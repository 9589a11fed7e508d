/**
 * Mass moments about a frame's origin: ∫dm in kg; ∫x dm … in kg·mm; ∫x² dm, ∫xy dm … in kg·mm². Products are plain
 * integrals (∫xz dm), not the negatives that stand in an inertia tensor.
 */
import { turning } from '../geometry/angles.ts'
import type { Moments } from '../geometry/ringMoments.ts'
import type { Pose } from '../geometry/space/pose.ts'
import type { Point3 } from '../geometry/types.ts'

export interface MassMoments {
  readonly m: number
  readonly x: number
  readonly y: number
  readonly z: number
  readonly xx: number
  readonly xy: number
  readonly yy: number
  readonly zz: number
  readonly xz: number
  readonly yz: number
}

export const NO_MASS: MassMoments = { m: 0, x: 0, y: 0, z: 0, xx: 0, xy: 0, yy: 0, zz: 0, xz: 0, yz: 0 }

/**
 * Of what is extruded along z from z0 to z1, mm, over the area that has those moments;
 * uniform in z, so products with z need no own terms. @param density kg/mm³
 */
export function prismMass(a: Moments, z0: number, z1: number, density: number): MassMoments {
  const h = density * (z1 - z0)
  const h1 = (density * (z1 * z1 - z0 * z0)) / 2
  const h2 = (density * (z1 ** 3 - z0 ** 3)) / 3
  return {
    m: h * a.area,
    x: h * a.x,
    y: h * a.y,
    z: h1 * a.area,
    xx: h * a.xx,
    xy: h * a.xy,
    yy: h * a.yy,
    zz: h2 * a.area,
    xz: h1 * a.x,
    yz: h1 * a.y,
  }
}

/** a + factor·b, both about the same origin. */
export function addMass(a: MassMoments, b: MassMoments, factor = 1): MassMoments {
  return {
    m: a.m + factor * b.m,
    x: a.x + factor * b.x,
    y: a.y + factor * b.y,
    z: a.z + factor * b.z,
    xx: a.xx + factor * b.xx,
    xy: a.xy + factor * b.xy,
    yy: a.yy + factor * b.yy,
    zz: a.zz + factor * b.zz,
    xz: a.xz + factor * b.xz,
    yz: a.yz + factor * b.yz,
  }
}

export const scaleMass = (a: MassMoments, factor: number): MassMoments => addMass(NO_MASS, a, factor)

/** Centre of mass, mm; the origin where there is no mass. */
export function centreOfMass(a: MassMoments): Point3 {
  return a.m === 0 ? { x: 0, y: 0, z: 0 } : { x: a.x / a.m, y: a.y / a.m, z: a.z / a.m }
}

/** A point mass of `m` kg at `at`, mm. */
export function pointMass(m: number, at: Point3): MassMoments {
  const { x, y, z } = at
  return {
    m,
    x: m * x,
    y: m * y,
    z: m * z,
    xx: m * x * x,
    xy: m * x * y,
    yy: m * y * y,
    zz: m * z * z,
    xz: m * x * z,
    yz: m * y * z,
  }
}

/** Moves a body by (dx, dy, dz) mm. */
export function moveMass(a: MassMoments, dx: number, dy: number, dz: number): MassMoments {
  return {
    m: a.m,
    x: a.x + a.m * dx,
    y: a.y + a.m * dy,
    z: a.z + a.m * dz,
    xx: a.xx + 2 * dx * a.x + a.m * dx * dx,
    xy: a.xy + dx * a.y + dy * a.x + a.m * dx * dy,
    yy: a.yy + 2 * dy * a.y + a.m * dy * dy,
    zz: a.zz + 2 * dz * a.z + a.m * dz * dz,
    xz: a.xz + dx * a.z + dz * a.x + a.m * dx * dz,
    yz: a.yz + dy * a.z + dz * a.y + a.m * dy * dz,
  }
}

/** Turns a body counter-clockwise about the z axis by `degrees`. */
export function turnMass(a: MassMoments, degrees: number): MassMoments {
  const { c, s } = turning(degrees)
  return {
    m: a.m,
    x: c * a.x - s * a.y,
    y: s * a.x + c * a.y,
    z: a.z,
    xx: c * c * a.xx - 2 * c * s * a.xy + s * s * a.yy,
    xy: c * s * (a.xx - a.yy) + (c * c - s * s) * a.xy,
    yy: s * s * a.xx + 2 * c * s * a.xy + c * c * a.yy,
    zz: a.zz,
    xz: c * a.xz - s * a.yz,
    yz: s * a.xz + c * a.yz,
  }
}

/** A body whose moments are those in a pose, in the frame that the pose stands in. */
export function poseMass(a: MassMoments, { origin, u, v, n }: Pose): MassMoments {
  const first = (k: Axis) => a.x * u[k] + a.y * v[k] + a.z * n[k]
  const second = (j: Axis, k: Axis) =>
    a.xx * u[j] * u[k] +
    a.yy * v[j] * v[k] +
    a.zz * n[j] * n[k] +
    a.xy * (u[j] * v[k] + v[j] * u[k]) +
    a.xz * (u[j] * n[k] + n[j] * u[k]) +
    a.yz * (v[j] * n[k] + n[j] * v[k])
  const turned = {
    m: a.m,
    x: first('x'),
    y: first('y'),
    z: first('z'),
    xx: second('x', 'x'),
    xy: second('x', 'y'),
    yy: second('y', 'y'),
    zz: second('z', 'z'),
    xz: second('x', 'z'),
    yz: second('y', 'z'),
  }
  return moveMass(turned, origin.x, origin.y, origin.z)
}

type Axis = 'x' | 'y' | 'z'
