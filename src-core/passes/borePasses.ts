/**
 * Passes that bring a bore to size. Depths are on the radius, sizes on the diameter, mm. Sizes are reckoned in whole
 * steps of the dial, so that what is set is what is expected. The first pass gets under the skin at once; then roughing in
 * equal passes no deeper than is wanted; the last two are equal, so that the bar springs by as much in both, and what the
 * first of them leaves tells what the second will.
 */
import { perDivision, type Dial } from './dial.ts'
import type { SizeLimits } from './holeClasses.ts'

export interface BoreTask {
  readonly limits: SizeLimits
  /** Diameter that is there: cored, drilled or flame-cut. */
  readonly start: number
  /** Thickness of the hard skin; null where there is none. */
  readonly skin: number | null
  /** Depth of a roughing pass that bar and clamps like. */
  readonly depth: number
  /** Null: sizes in steps of 0.01 mm. */
  readonly dial: Dial | null
}

/** Measured after the last pass, from which the rest is planned. */
export interface Measured {
  readonly size: number
  /** Depth of the pass that left it, as it was set. */
  readonly depth: number
  /** Whether that pass was the first of the two last ones. */
  readonly finishing: boolean
}

export interface Pass {
  readonly kind: 'skin' | 'rough' | 'finish'
  /** On the radius. */
  readonly depth: number
  /** Steps of the dial to go on by, and how many it stands at, counted from where the edge touched. */
  readonly divisions: number
  readonly reads: number
  /** Diameter expected after it. */
  readonly size: number
}

export type PassPlan =
  | {
      readonly state: 'cut'
      readonly passes: readonly Pass[]
      readonly aim: number
      readonly words: readonly string[]
    }
  /** Nothing is left to do, or nothing can be done. */
  | { readonly state: 'in limits' | 'over size' | 'cannot be set'; readonly words: readonly string[] }

/** mm on the diameter, without a dial. Own setting. */
const FINE = 0.01
/** Depth of the last passes where roughing is no finer. Own setting, no source. */
const FINISH = 0.25
/** Depth below which an edge rubs rather than cuts. Own setting, no source. */
const RUBS = 0.02
/** Parts of a division that the eye still sets. */
const PARTS = [1, 2, 4, 5, 10]

/** Skin by which an edge has to get under at once where it was not measured, mm. Common practice, no source. */
export const USUAL_SKIN = { cored: 1, 'flame-cut': 1.5 } as const

interface Steps {
  /** mm on the diameter that one step gives, and steps in a division. */
  readonly size: number
  readonly parts: number
  /** Steps from the start to the size aimed at. */
  readonly count: number
}

/** Plans the passes from what is there. Throws RangeError unless start, limits and depth are above 0 in order. */
export function planPasses(task: BoreTask): PassPlan {
  return planFrom(task, task.start, task.skin ?? 0, null)
}

/** Plans what is left after a pass was measured. */
export function replan(task: BoreTask, measured: Measured): PassPlan {
  const under = Math.max(0, (task.skin ?? 0) - (measured.size - task.start) / 2)
  return planFrom(task, measured.size, under, measured)
}

function planFrom(task: BoreTask, from: number, skin: number, measured: Measured | null): PassPlan {
  const [low, high] = task.limits
  if (!(task.depth > 0 && low > 0 && high >= low && from > 0))
    throw new RangeError('sizes and depth above 0 and limits in order are wanted')
  if (from > high)
    return { state: 'over size', words: ['It is over the upper limit: no pass brings it back.'] }
  if (from >= low) return { state: 'in limits', words: ['It is within its limits: leave it.'] }
  const steps = stepsTo(task, from)
  if (!steps)
    return {
      state: 'cannot be set',
      words: [
        'No reading of the dial lies between the limits, not even a tenth of a division: bore short and ream or hone, or use an indicator.',
      ],
    }
  const layout = layOut(task, steps, skin, measured)
  let at = 0
  const passes = layout.map(({ kind, steps: n }): Pass => {
    at += n
    return {
      kind,
      depth: (n * steps.size) / 2,
      divisions: n / steps.parts,
      reads: at / steps.parts,
      size: from + at * steps.size,
    }
  })
  return {
    state: 'cut',
    passes,
    aim: from + steps.count * steps.size,
    words: wordsFor(task, steps, skin, passes),
  }
}

/** The coarsest parts of a division that reach between the limits, and the reading nearest to their middle. */
function stepsTo({ limits: [low, high], dial }: BoreTask, from: number): Steps | null {
  const whole = dial ? perDivision(dial) : FINE
  for (const parts of PARTS) {
    const size = whole / parts
    const count = Math.round(((low + high) / 2 - from) / size)
    const reached = from + count * size
    if (count > 0 && reached >= low && reached <= high) return { size, parts, count }
  }
  return null
}

interface Share {
  readonly kind: Pass['kind']
  readonly steps: number
}

function layOut(task: BoreTask, { size, count }: Steps, skin: number, measured: Measured | null): Share[] {
  const stepsOf = (depth: number) => Math.floor((2 * depth) / size + 1e-9)
  const roughing = Math.max(1, stepsOf(task.depth))
  // The first of the last two is measured: one more like it brings it to size.
  if (measured?.finishing && count <= stepsOf(measured.depth * 1.5)) return [{ kind: 'finish', steps: count }]
  const under = skin > 0 ? Math.min(count, Math.ceil((2 * skin) / size - 1e-9)) : 0
  // What the skin leaves is either nothing or enough for the last passes to cut.
  const first =
    under > 0 && count - under > 0 && count - under < 2 * Math.max(1, stepsOf(RUBS)) ? count : under
  const left = count - first
  const shares: Share[] = first > 0 ? [{ kind: 'skin', steps: first }] : []
  if (left === 0) return shares
  const finish = Math.max(1, Math.min(roughing, stepsOf(FINISH)))
  if (left <= 2 * finish) return [...shares, ...lastTwo(left, stepsOf(RUBS))]
  const rough = left - 2 * finish
  // Too little for a pass of its own: three alike, so that none rubs.
  if (rough < finish) {
    const third = Math.ceil(left / 3)
    return [
      ...shares,
      { kind: 'rough', steps: left - 2 * third },
      { kind: 'finish', steps: third },
      { kind: 'finish', steps: third },
    ]
  }
  const times = Math.ceil(rough / roughing)
  const each = Array.from(
    { length: times },
    (_, i) => Math.floor((rough * (i + 1)) / times) - Math.floor((rough * i) / times),
  )
  return [
    ...shares,
    ...each.sort((a, b) => b - a).map((steps): Share => ({ kind: 'rough', steps })),
    { kind: 'finish', steps: finish },
    { kind: 'finish', steps: finish },
  ]
}

/** Two equal passes, by half a step where their sum is odd; one where two would rub. */
function lastTwo(left: number, rubs: number): Share[] {
  if (left / 2 < Math.max(1, rubs)) return [{ kind: 'finish', steps: left }]
  const half: Share = { kind: 'finish', steps: left / 2 }
  return [half, half]
}

function wordsFor(
  task: BoreTask,
  { parts, count, size }: Steps,
  skin: number,
  passes: readonly Pass[],
): string[] {
  const words: string[] = []
  if (parts > 1)
    words.push(
      `A division of the dial is coarse for these limits: set to the nearest ${parts === 2 ? 'half' : `1/${parts}`}.`,
    )
  if (skin > 0 && 2 * skin > count * size)
    words.push('There is less to take than the skin is thick: the finished bore lies in hard skin.')
  if (passes.some((p) => p.kind === 'skin' && p.depth > task.depth))
    words.push(
      'The first pass is deeper than the others, to get under the skin at once: slowest gear, and check the clamps after it.',
    )
  return words
}
