/** What stands under a strap's heel: plain blocks, step blocks, screw jacks. Usual sizes are common practice. mm. */
import { discArea } from '../geometry/discArea.ts'
import { findThread, rodVolume } from './threads.ts'

export interface HeelBlock {
  readonly length: number
  readonly width: number
  readonly height: number
}

export const USUAL_HEEL_BLOCKS: readonly HeelBlock[] = [
  { length: 25, width: 25, height: 20 },
  { length: 30, width: 30, height: 32 },
  { length: 40, width: 30, height: 50 },
]

/** A block with a stair of even steps along its length; the strap's heel rests on one of them. */
export interface StepBlock {
  readonly length: number
  readonly width: number
  /** Height of the lowest step. */
  readonly lowest: number
  readonly highest: number
  /** From one step up to the next. */
  readonly pitch: number
}

export const USUAL_STEP_BLOCKS: readonly StepBlock[] = [
  { length: 40, width: 25, lowest: 10, highest: 34, pitch: 3 },
  { length: 60, width: 30, lowest: 20, highest: 60, pitch: 4 },
  { length: 80, width: 30, lowest: 40, highest: 100, pitch: 5 },
]

/** Heights of the steps, lowest first. Throws RangeError on a pitch that does not go up. */
export function stepHeights({ lowest, highest, pitch }: StepBlock): number[] {
  if (!(pitch > 0)) throw new RangeError(`steps of ${pitch} mm`)
  // A share of a step is forgiven, so that 10 + 8 × 3 reaches 34 in decimals too.
  const count = Math.floor((highest - lowest) / pitch + 1e-6)
  return Array.from({ length: count + 1 }, (_, k) => lowest + k * pitch)
}

/** The lowest step that is at least as high as wanted, for a heel stands level or a little high; null above the stair. */
export const stepFor = (block: StepBlock, height: number): number | null =>
  stepHeights(block).find((h) => h >= height - 1e-6) ?? null

/** mm³: treads are alike, so it is the mean of the steps' heights over the plan. */
export function stepBlockVolume(block: StepBlock): number {
  const heights = stepHeights(block)
  return ((block.length * block.width) / heights.length) * heights.reduce((sum, h) => sum + h, 0)
}

export interface ScrewJack {
  /** Diameter of the round base. */
  readonly base: number
  readonly thread: string
  /** Screwed right in. */
  readonly lowest: number
  /** Screwed out as far as it may be. */
  readonly highest: number
}

/** No taller than three times the base: a published rule of practice. */
export const JACK_HEIGHT_PER_BASE = 3

export const USUAL_SCREW_JACKS: readonly ScrewJack[] = [
  { base: 25, thread: 'M10', lowest: 30, highest: 42 },
  { base: 32, thread: 'M12', lowest: 40, highest: 58 },
  { base: 40, thread: 'M16', lowest: 55, highest: 80 },
]

/** Height that a jack may stand at for a wanted one, mm: null where it does not reach or would stand too tall. */
export function jackFor(jack: ScrewJack, height: number): number | null {
  const tallest = Math.min(jack.highest, JACK_HEIGHT_PER_BASE * jack.base)
  return height >= jack.lowest && height <= tallest ? height : null
}

/**
 * mm³ at a height: the body as a solid cylinder, screw within it, and the screw that stands out. A real one has a waist
 * and weighs less. Throws RangeError on a thread that is not in the table.
 */
export function jackVolume(jack: ScrewJack, height: number): number {
  const thread = findThread(jack.thread)
  if (!thread) throw new RangeError(`no thread ${jack.thread}`)
  return discArea(jack.base) * jack.lowest + rodVolume(thread, Math.max(0, height - jack.lowest))
}
