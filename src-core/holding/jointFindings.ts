/** What the joints of a setup say to the machinist: short sentence first, the cure, then the figures. */
import { finding, type Finding } from '../findings/finding.ts'
import { worthAWord } from '../job/spindle.ts'
import { formatter, plain, significant, type Formatter } from '../units/format.ts'
import type { Mounted } from '../mounting/types.ts'
import { curesOf } from './jointCures.ts'
import { modeWords, overWords } from './jointWords.ts'
import { letGoWords, type LetGo } from './letGo.ts'
import { WANTED_FACTOR, type Judged, type JudgedJoint } from './judged.ts'

/** @param flies what each piece would do if it let go at the chosen speed. */
export function jointFindings(mounted: Mounted, judged: Judged, flies: readonly LetGo[]): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const { speed } = mounted.setup
  const goes = ({ built }: JudgedJoint) =>
    speed === null
      ? ''
      : letGoWords(
          fmt,
          speed,
          flies.find((f) => f.item === built.id),
        )
  const findings = judged.joints.flatMap((j) => [
    ...verdictOf(mounted, fmt, j, goes(j)),
    ...unknownAbove(fmt, j, goes(j)),
    ...seatFinding(fmt, j),
  ])
  return [...findings, ...holdFindings(mounted, fmt, judged)]
}

/** A factor beyond this needs no figure. */
const AMPLE = 100

const itemOf = ({ built }: JudgedJoint): string => (built.kind === 'part' ? 'setup' : built.id)

/** Written so that a factor that is no number never passes. */
const holds = ({ result }: JudgedJoint): boolean => (result?.factor ?? 0) >= WANTED_FACTOR

function verdictOf(mounted: Mounted, fmt: Formatter, j: JudgedJoint, goes: string): Finding[] {
  const { built, result } = j
  if (!result) return built.quiet ? [] : [notJudged(j, goes)]
  // With a press that is not known the factor may be better than this: `unknownAbove` says so.
  if (holds(j) || built.unknown.length > 0) return []
  const code = result.mode === 'tipping' ? ('joint-tips' as const) : ('joint-slides' as const)
  const head = `${built.name} ${modeWords(j)}: ${figures(mounted, fmt, j)}, ${WANTED_FACTOR} wanted.`
  const message = sentences(head, curesOf(mounted, fmt, j), splitWords(j), goes)
  return [finding('stop', code, itemOf(j), message, result.at ?? built.at, j.rpmAt2)]
}

/** Those that say something. */
const sentences = (...all: readonly string[]): string => all.filter((s) => s !== '').join(' ')

function notJudged(j: JudgedJoint, goes: string): Finding {
  const { name, lacks, at } = j.built
  const why = lacks.length > 0 ? lacks.join('; ') : 'its numbers are out of all sense'
  const message = sentences(`${name} is not judged: ${why}. Whether it holds is not known.`, goes)
  return finding('caution', 'joint-not-judged', itemOf(j), message, at)
}

/** What holds as far as is known, but may hold better than that. */
function unknownAbove(fmt: Formatter, j: JudgedJoint, goes: string): Finding[] {
  const { built, result, rpmAt2 } = j
  if (!result || built.unknown.length === 0) return []
  // A stud of its own may be torn or tear out; a clamp of the part says that itself.
  if (built.kind !== 'part') {
    const lacks = built.lacks.length > 0 ? ` (${built.lacks.join(', ')})` : ''
    const of = built.unknown.every((id) => id === built.id) ? 'its studs' : 'what presses it'
    const message = `${built.name} is not judged: not all is known of ${of}${lacks}. Give what is missing there.`
    return [finding('caution', 'joint-not-judged', itemOf(j), sentences(message, goes), built.at)]
  }
  if (rpmAt2 === Infinity) return []
  const which = built.unknown.join(', ')
  const up =
    rpmAt2 > 0
      ? `${built.name} holds for certain only up to ${speed(fmt, rpmAt2)}`
      : `Whether ${lower(built.name)} holds is not known`
  const why = `${up}: ${which} ${built.unknown.length === 1 ? 'is' : 'are'} not known well enough and counted as nothing. Give what is missing there, or do without.`
  const message = sentences(why, goes)
  return [finding('caution', 'joint-not-judged', itemOf(j), message, built.at, rpmAt2)]
}

function seatFinding(fmt: Formatter, j: JudgedJoint): Finding[] {
  const { built, result } = j
  if (!result?.opens || !holds(j)) return []
  const worn = built.kind === 'part' ? 'Place and finish may be lost.' : 'It may work loose.'
  const message = `The seat of ${lower(built.name)} begins to open${overWords(j)}: factor ${significant(result.tipping, 2)} against tipping. ${worn} Press it nearer to that edge, or run slower.`
  return [finding('caution', 'seat-opens', itemOf(j), message, result.at)]
}

function holdFindings(mounted: Mounted, fmt: Formatter, { part, joints }: Judged): Finding[] {
  const findings: Finding[] = []
  if (holds(part)) {
    const known = worthAWord(mounted.job.lathe, part.rpmAt2)
    const fall = known ? `; it falls to ${WANTED_FACTOR} at ${speed(fmt, part.rpmAt2)}` : ''
    const message = `By friction the part holds: ${figures(mounted, fmt, part)}${fall}. Evenswing asks for ${WANTED_FACTOR} as a rule of thumb. ${splitWords(part)}`
    findings.push(finding('note', 'joint-holds', 'setup', message))
  }
  const others = joints.slice(1).filter((j) => j.result)
  const least = others.reduce<JudgedJoint | null>(
    (a, b) => (a && a.result!.factor <= b.result!.factor ? a : b),
    null,
  )
  if (least && others.every(holds)) {
    const all = others.length === 1 ? 'holds' : `and the other ${others.length - 1} joints hold`
    const message = `${least.built.name} ${all}: ${figures(mounted, fmt, least)}${others.length === 1 ? '' : ', the least of them'}.`
    findings.push(finding('note', 'joint-holds', least.built.id, message, least.built.at))
  }
  return findings
}

/** `factor 1.3 at 540 rpm (emergency stop, the cut)`. */
function figures({ setup }: Mounted, fmt: Formatter, { result }: JudgedJoint): string {
  const at = setup.speed === null ? 'standing still' : `at ${fmt.speed(setup.speed)}`
  const loading = result?.loading && result.loading !== 'turning' ? ` (${result.loading})` : ''
  const factor = result?.factor ?? 0
  return `factor ${factor > AMPLE ? `over ${AMPLE}` : significant(factor, 2)} ${at}${loading}`
}

function splitWords({ built, result }: JudgedJoint): string {
  if (!result || !built.input) return ''
  const n = (v: number) => (v > AMPLE ? `over ${AMPLE}` : significant(v, 2))
  return `Against sliding alone ${n(result.sliding)}, against tipping alone ${n(result.tipping)}, friction ${plain(built.input.friction, 2)}.`
}

/** A limit is never rounded up. */
const speed = (fmt: Formatter, rpm: number): string => fmt.speedLimit(rpm)

const lower = (name: string): string => (name === 'The part' ? 'the part' : name)
