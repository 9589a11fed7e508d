/** Which step of the work a finding is mended in. */
import type { FINDINGS, FindingCode } from '../../src-core/findings/codes.ts'
import { standingAt, type Finding } from '../../src-core/findings/finding.ts'
import type { Setup } from '../../src-core/job/schema.ts'
import { PIECE_STEPS } from './pieceSteps.ts'
import type { StepName } from './session.svelte.ts'

export type Against = 'stop' | 'not-judged'

/** Codes that may stand against running; the others leave a step as it is. */
type AgainstCode = {
  [C in FindingCode]: (typeof FINDINGS)[C] extends { stop: 'stop' } | { caution: 'unknown' } ? C : never
}[FindingCode]

/** 'item': the step of the piece, the part or the plate that it is about. */
const STEPS: Readonly<Record<AgainstCode, StepName | 'item'>> = {
  'fouls-bed': 'item',
  'fouls-gap': 'item',
  'fouls-cross-slide': 'item',
  'fouls-carriage': 'item',
  'fouls-tailstock': 'item',
  'fouls-behind': 'item',
  'carriage-not-checked': 'machine',
  'tailstock-not-checked': 'machine',
  'behind-not-checked': 'machine',
  'in-bar-path': 'item',
  'hardware-clash': 'item',
  'part-clash': 'item',
  'fixture-thin': 'item',
  'shelf-above-axis': 'item',
  'body-slanted': 'part',
  'vee-unjudged': 'mounting',
  'part-off-vee': 'mounting',
  'clamp-off-seat': 'item',
  'part-off-shelf': 'mounting',
  'block-loose': 'clamps',
  'block-overhangs': 'item',
  'block-on-foot': 'item',
  'bolt-covered': 'item',
  'outside-slot': 'item',
  'off-plate': 'item',
  'breakthrough-plate': 'mounting',
  'breakthrough-packing': 'mounting',
  'bore-off-axis': 'mounting',
  'outline-fault': 'part',
  'bore-wall': 'part',
  'part-in-pieces': 'part',
  'density-contradicted': 'part',
  'mass-unlikely': 'item',
  'unbalance-over-limit': 'counterweights',
  'criterion-not-known': 'machine',
  'criterion-bold': 'speed',
  'speed-above-ceiling': 'speed',
  'over-plate-rating': 'speed',
  'over-spindle-speed': 'speed',
  'over-nose-load': 'machine',
  'nose-unscrews': 'machine',
  'nose-not-known': 'machine',
  'no-clamp': 'clamps',
  'one-clamp': 'clamps',
  'no-cut': 'mounting',
  'over-proof-load': 'clamps',
  'toe-off': 'item',
  'toe-on-mesh': 'item',
  'clamp-not-judged': 'item',
  'press-off': 'item',
  'washer-off': 'item',
  'toe-bends-part': 'item',
  'part-not-carried': 'mounting',
  'packing-not-carried': 'item',
  'pressed-beyond-yield': 'item',
  'packing-idle': 'item',
  'part-bends': 'mounting',
  'heel-not-carried': 'item',
  'heel-beyond-strap': 'item',
  'heel-at-bolt': 'item',
  'strap-not-level': 'item',
  'strap-yields': 'item',
  'bolt-in-solid': 'item',
  'stud-does-not-fit': 'item',
  'stud-short': 'item',
  'stud-length-unknown': 'item',
  'washer-too-small': 'item',
  'nut-unfit': 'item',
  'hole-taken': 'item',
  'lip-breaks': 'item',
  'lip-not-judged': 'item',
  'joint-slides': 'item',
  'joint-tips': 'item',
  'joint-not-judged': 'item',
  'in-tool-path': 'item',
  'drilling-not-checked': 'mounting',
  'drill-too-large': 'mounting',
  'bar-unfit': 'mounting',
}

const isAgainst = (code: FindingCode): code is AgainstCode => code in STEPS

function stepOf({ code, item }: Finding, setup: Setup): StepName | null {
  if (!isAgainst(code)) return null
  const step = STEPS[code]
  if (step !== 'item') return step
  if (item === 'plate') return 'machine'
  // The part as it is held.
  if (item === 'setup') return 'clamps'
  const piece = setup.hardware.find((h) => h.id === item)
  return piece ? PIECE_STEPS[piece.kind] : 'mounting'
}

/** The worst that stands against running in each step. */
export function stepsAgainst(findings: readonly Finding[], setup: Setup): Map<StepName, Against> {
  const worst = new Map<StepName, Against>()
  for (const f of findings) {
    const standing = standingAt(f, setup.speed)
    const step = f.effect === 'none' ? null : stepOf(f, setup)
    if (!step || (standing !== 'stop' && standing !== 'not-judged')) continue
    if (worst.get(step) !== 'stop') worst.set(step, standing)
  }
  return worst
}
