/** What a tightened stud pulls with: the scatter of its preload, its proof load, or what is missing to know it. */
import type { Uncertainties } from '../doubt/defaults.ts'
import { findThread, proofLoad, type Thread } from '../hardware/threads.ts'
import type { FasteningFields } from '../mounting/fastening.ts'
import { boltPreload } from '../hardware/preload.ts'

/** Nut factor of oiled threads: published beside 0.20 for dry ones. */
const OILED_NUT_FACTOR = 0.15

/** N */
export interface Preload {
  readonly thread: Thread
  /** Low side of the scatter, never above proof load. */
  readonly low: number
  readonly mean: number
  /** High side of the scatter; not held to the proof load, for it counts only where it harms. */
  readonly high: number
  readonly proof: number
}

/** `missing`: what is not given or not in the tables, as words; empty where all is known. */
export type PreloadKnown =
  | { readonly preload: Preload; readonly missing: readonly [] }
  | { readonly preload: null; readonly missing: readonly string[] }

type Tightened = Pick<FasteningFields, 'torque' | 'lubricated'> & {
  readonly stud: { readonly thread?: string | null | undefined; readonly class?: string | null | undefined }
}

/** K of T = K·D·F; threads that nothing is said of count as dry. */
export const nutFactorOf = (lubricated: boolean | null | undefined, doubt: Uncertainties): number =>
  lubricated ? Math.min(doubt.nutFactor, OILED_NUT_FACTOR) : doubt.nutFactor

/** Mean preload T/(K·D), spread by the job's preload scatter. */
export function preloadOf({ stud, torque, lubricated }: Tightened, doubt: Uncertainties): PreloadKnown {
  const thread = stud.thread ? findThread(stud.thread) : null
  const proof = thread && stud.class ? proofLoad(thread, stud.class) : null
  const missing = [
    ...(stud.thread ? [] : ['thread not given']),
    ...(stud.thread && !thread ? [`thread ${stud.thread} is not in the table`] : []),
    ...(stud.class ? [] : ['strength class not given']),
    ...(stud.class && thread && proof === null
      ? [`class ${stud.class} is not in the table for ${thread.name}`]
      : []),
    ...(torque ? [] : ['torque not given']),
  ]
  if (!thread || proof === null || !torque) return { preload: null, missing }
  const mean = boltPreload(torque, nutFactorOf(lubricated, doubt), thread.diameter)
  const low = Math.min(mean * (1 - doubt.preloadScatter), proof)
  return { preload: { thread, low, mean, high: mean * (1 + doubt.preloadScatter), proof }, missing: [] }
}

/** N that a stud may press with what is under its nut; beyond its proof load it gives way itself. Null where it is not known. */
export const mostPull = (preload: Preload | null): number | null =>
  preload && Math.min(preload.high, preload.proof)
