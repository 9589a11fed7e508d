/** What each step of the work has and what it still lacks, in a few words. */
import { leastJointWords } from '../../src-core/holding/leastJoint.ts'
import type { Analysis } from '../../src-core/analysis/result.ts'
import { fastenerOf } from '../../src-core/hardware/fastener.ts'
import { isClamp, isCounterweight, type Job, type Setup } from '../../src-core/job/schema.ts'
import { VERDICT_WORDS } from '../../src-core/verdict/speeds.ts'
import { stepsAgainst, type Against } from './findingSteps.ts'
import { grouped, plain, type Formatter } from '../../src-core/units/format.ts'
import type { StepName } from './session.svelte.ts'

export interface StepState {
  readonly summary: string
  readonly lacks: readonly string[]
  /** The worst finding of its own that stands against running: wrong, or not known. */
  readonly against: 'stop' | 'not-judged' | null
}

type Words = Pick<StepState, 'summary' | 'lacks'>

const missing = (list: readonly (readonly [boolean, string])[]): string[] =>
  list.filter(([is]) => is).map(([, words]) => words)

const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`

export function stepStates(
  job: Job,
  setup: Setup,
  analysis: Analysis | null,
  fmt: Formatter,
): Record<StepName, StepState> {
  const words: Record<StepName, Words> = {
    machine: machine(job, fmt),
    part: part(job, analysis, fmt),
    mounting: mounting(job, setup),
    clamps: clamps(setup, analysis),
    counterweights: counterweights(job, setup, analysis, fmt),
    speed: speed(setup, analysis),
    sheet: sheet(job),
  }
  const against = analysis ? stepsAgainst(analysis.findings, setup) : new Map<StepName, Against>()
  return Object.fromEntries(
    Object.entries(words).map(([step, own]) => [
      step,
      { ...own, against: against.get(step as StepName) ?? null },
    ]),
  ) as Record<StepName, StepState>
}

function machine({ lathe, plate }: Job, fmt: Formatter): Words {
  return {
    summary: `swing ${fmt.length(lathe.swingOverBed)}, plate ${fmt.length(plate.diameter)}`,
    lacks: missing([
      [plate.slots.length + plate.holes.length === 0, 'slots'],
      [plate.ratedSpeed === null, 'plate rating'],
      [lathe.noseOverhang === null, 'nose overhang'],
      [lathe.loadLimit === null, 'load limit'],
      [lathe.barReach === null, 'bar reach'],
    ]),
  }
}

function part({ part: p }: Job, analysis: Analysis | null, fmt: Formatter): Words {
  const mass = analysis ? fmt.mass(analysis.part.mass_kg) : '–'
  return {
    summary: `${mass}, ${p.material || 'no material named'}`,
    lacks: missing([
      [p.bores.length === 0, 'a bore'],
      [p.weighedMass === null, 'weighing'],
    ]),
  }
}

function mounting(job: Job, setup: Setup): Words {
  const centre = 'bore' in setup.centre ? `bore ${setup.centre.bore} on the axis` : 'a point on the axis'
  return {
    summary: `${centre}, turned ${plain(setup.turn, 1)}°`,
    lacks: missing([
      [setup.packing > 0 && !setup.hardware.some((h) => h.kind === 'packing'), 'packing pieces'],
      [!setup.cuts, 'what is cut'],
    ]),
  }
}

function clamps(setup: Setup, analysis: Analysis | null): Words {
  const list = setup.hardware.filter(isClamp)
  const incomplete = list.filter((h) => {
    const f = fastenerOf(h)
    if (!f?.thread || !f.strengthClass || !f.torque) return true
    if (h.kind === 'clamp') return !h.heel
    return h.kind === 'press' && (!h.press?.boltToWork || !h.press.boltToHeel || !h.press.nose)
  })
  const least = analysis && leastJointWords(analysis.joints)
  const factor = least ? `, hold ${least}` : ''
  return {
    summary: plural(list.length, 'clamp') + factor,
    lacks: missing([
      [list.length === 0, 'clamps'],
      [incomplete.length > 0, `data of ${incomplete.map((h) => h.id).join(', ')}`],
    ]),
  }
}

function counterweights(job: Job, setup: Setup, analysis: Analysis | null, fmt: Formatter): Words {
  const weights = setup.hardware.filter(isCounterweight)
  const left = analysis ? `, ${grouped(fmt.unbalance(analysis.unbalance.static_g_mm))} left` : ''
  return {
    summary: plural(weights.length, 'weight') + left,
    lacks: missing([[job.stock.length === 0, 'stock']]),
  }
}

function speed(setup: Setup, analysis: Analysis | null): Words {
  const row = analysis?.speeds.find((s) => s.rpm === setup.speed)
  return {
    summary:
      setup.speed === null
        ? 'none chosen'
        : `${plain(setup.speed, 1)} rpm${row ? `: ${VERDICT_WORDS[row.verdict]}` : ''}`,
    lacks: missing([[setup.speed === null, 'a speed']]),
  }
}

function sheet(job: Job): Words {
  return {
    summary: job.partNumber ? job.partNumber : 'drawing to take to the machine',
    lacks: missing([
      [!job.title, 'a title'],
      [!job.partNumber, 'a part number'],
    ]),
  }
}
