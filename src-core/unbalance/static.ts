/**
 * Static and couple unbalance and what they pull. Unbalance U = Σ m·r in g·mm; force F = U·ω² (ISO 21940-11 terms;
 * 1 g·mm = 1e-6 kg·m); couple C = Σ m·z·r in g·mm² about the plate's face, moment C·ω².
 */
import { FULL_TURN } from '../geometry/angles.ts'

/** Standard acceleration of free fall, m/s² (ISO 80000-3). */
export const STANDARD_GRAVITY = 9.80665

/** rad/s from rpm. */
export const angularSpeed = (rpm: number): number => (FULL_TURN * rpm) / 60

/** rpm from rad/s. */
export const rpmOf = (omega: number): number => (omega * 60) / FULL_TURN

/** g·mm: less than this has no side to speak of. */
const LEAST_UNBALANCE = 1

/** Whether an unbalance in g·mm makes one side heavy: the direction of less is what rounding leaves. */
export const isHeavySide = (unbalance: number): boolean => unbalance >= LEAST_UNBALANCE

/** N, from g·mm and rpm. */
export const centrifugalForce = (unbalance: number, rpm: number): number =>
  unbalance * 1e-6 * angularSpeed(rpm) ** 2

/** N·m, from a couple in g·mm² and rpm. */
export const coupleMoment = (couple: number, rpm: number): number => couple * 1e-9 * angularSpeed(rpm) ** 2

/** mm/s: eccentricity times angular speed, the equivalent balance quality grade of ISO 21940-11. */
export const equivalentGrade = (unbalance: number, mass: number, rpm: number): number =>
  (unbalance / (mass * 1000)) * angularSpeed(rpm)

/** g·mm: permissible residual unbalance U_per = 1000·G·m/Ω for a grade in mm/s, a mass in kg (ISO 21940-11). */
export const permissibleUnbalance = (grade: number, mass: number, rpm: number): number =>
  (1000 * grade * mass) / angularSpeed(rpm)
