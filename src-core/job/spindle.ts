/** At which speeds a lathe's spindle can turn: in steps, without steps within a range, or both. All in rpm. */
import type { Lathe } from './schema.ts'

/** Each step once, rising. */
export const spindleSteps = ({ speeds }: Lathe): number[] =>
  [...new Set(speeds.steps.map((s) => s.rpm))].sort((a, b) => a - b)

const inRange = ({ speeds: { stepless } }: Lathe, rpm: number): boolean =>
  stepless !== null && rpm >= stepless[0] && rpm <= stepless[1]

/** Whether the spindle can turn at a speed. */
export const turnsAt = (lathe: Lathe, rpm: number): boolean =>
  inRange(lathe, rpm) || lathe.speeds.steps.some((s) => s.rpm === rpm)

/** rpm, of steps and stepless range; 0 where neither is given. */
export const fastest = (lathe: Lathe): number =>
  Math.max(...spindleSteps(lathe), lathe.speeds.stepless?.[1] ?? 0)

/** Times the fastest speed, up to which one is worth a word. */
const WORTH_A_WORD = 3
/** Whether a speed, rpm, is near enough to what the spindle can turn at to be spoken of. */
export const worthAWord = (lathe: Lathe, rpm: number): boolean => rpm <= WORTH_A_WORD * fastest(lathe)

/** rpm; Infinity where neither is given. */
export const slowest = (lathe: Lathe): number =>
  Math.min(...spindleSteps(lathe), lathe.speeds.stepless?.[0] ?? Infinity)

/** Preferred numbers of the series R5, ISO 3:1973. */
const R5 = [1, 1.6, 2.5, 4, 6.3]
/** A preferred speed nearer by ratio than this to a step or an end says nothing of its own. */
const APART = 1.2

/** Speeds to look at, rising: the steps, and of a range its ends and the preferred numbers between. */
export function speedsToLookAt(lathe: Lathe): number[] {
  const { stepless } = lathe.speeds
  if (stepless === null) return spindleSteps(lathe)
  const [low, high] = stepless
  const between: number[] = []
  for (let decade = 10 ** Math.floor(Math.log10(low)); decade <= high; decade *= 10)
    between.push(...R5.map((r) => Number((r * decade).toPrecision(3))).filter((n) => n > low && n < high))
  const given = [...spindleSteps(lathe), low, high]
  const apart = (n: number) => given.every((g) => Math.max(n / g, g / n) >= APART)
  return [...new Set([...given, ...between.filter(apart)])].sort((a, b) => a - b)
}

/** The step of a speed that is in back gear; null where the lathe says nothing of it. */
export const backGearAt = ({ speeds }: Lathe, rpm: number): boolean | null =>
  speeds.steps.find((s) => s.rpm === rpm)?.backGear ?? null
