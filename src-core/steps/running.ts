/** Steps from the clear plate to the finished bore. */
import type { Analysis } from '../analysis/result.ts'
import { ROLLING_WORDS } from '../checks/byHand.ts'
import { overhangWords } from '../cutting/bar.ts'
import { cutPlaces, cutWords } from '../cutting/cutPlace.ts'
import { isBoreCut, type Cut } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { isHeavySide } from '../unbalance/static.ts'
import { clockPosition, type Formatter } from '../units/format.ts'
import { isOver } from '../verdict/limits.ts'
import { VERDICT_WORDS, holdsAt } from '../verdict/speeds.ts'
import { capital } from '../words/capital.ts'
import { facts, step, type Step } from './step.ts'

const STAND = 'Nobody in the plane of rotation.'
const SHAKES = 'Stop at once if it shakes, knocks or walks.'

/** Why power must stay off; null where the verdict is not stop. */
export function barOf({ verdict }: Analysis): string | null {
  if (verdict.state !== 'stop') return null
  return `Power stays off: ${verdict.reason}.`
}

export const clearStep = (): Step =>
  step('clear', 'clear', 'Clear away', {
    does: [
      'Every clamp, weight and packing tight.',
      'Wrenches, chuck key, indicator, rags: all off plate and slideways.',
      'Saddle where it will be at full depth of bore.',
    ],
    lit: ['plate'],
  })

export function turnStep(a: Analysis, fmt: Formatter): Step {
  const tight = a.clearances[0]
  const what = tight ? (tight.body ? `${tight.item} (${tight.body})` : tight.item) : ''
  return step('turn', 'turn', 'Turn by hand', {
    facts: facts(
      ['Tightest', tight ? `${what} to the ${tight.against}` : null],
      [
        'Gap',
        tight
          ? tight.clearance_mm < 0
            ? `fouls by ${fmt.length(-tight.clearance_mm)}`
            : fmt.length(tight.clearance_mm)
          : null,
      ],
    ),
    does: [
      'Drive isolated and out of gear.',
      'A full turn by hand, slowly, all the way round.',
      'Nothing fouls bed, gap, cross-slide, bar or plate.',
    ],
    warns: ['Let the heavy side down slowly, hands clear of straps and studs.'],
    lit: tight ? [tight.item] : ['plate'],
  })
}

export function rollStep({ unbalance, by_hand: hand }: Analysis, fmt: Formatter): Step {
  const { static_g_mm: u, static_angle_deg: angle } = unbalance
  const stays = hand.rolls === 'stays'
  return step('roll', 'roll', 'Roll test and trim', {
    facts: facts(
      ['Will it roll', ROLLING_WORDS[hand.rolls]],
      [
        'Heavy side, computed',
        isHeavySide(u) ? `${fmt.angle(angle)}, ${clockPosition(angle)} as drawn` : 'none to speak of',
      ],
      ['Unbalance, computed', fmt.unbalance(u)],
      ['Holds it level', `${fmt.mass(hand.as_weight.mass_kg)} at ${fmt.length(hand.as_weight.radius_mm)}`],
    ),
    does: stays
      ? [
          'Drive isolated, out of gear, belt off if it drags.',
          'Turn it by hand: is there anywhere it wants to go? If there is, find out why before power.',
        ]
      : [
          'Drive isolated, out of gear, belt off if it drags.',
          'Let it roll to rest, from both sides, three times. Read the plate’s angle that points straight down.',
          'Turn the heavy side level and hang a weight on the other side: what just lifts it, what just lets it fall.',
        ],
    warns: stays ? [] : ['Let the heavy side down slowly, and chock it before you work.'],
    lit: ['plate'],
    entry: 'trim',
  })
}

export function startStep({ setup }: Mounted, a: Analysis, fmt: Formatter): Step {
  const slowest = a.speeds[0]
  const { rpm } = a.ceiling
  return step('start', 'start', 'First speed', {
    facts: facts(
      ['Begin at', slowest ? speedWords(slowest.rpm, a, fmt) : null],
      ['Then up to', setup.speed === null ? 'no speed is chosen' : speedWords(setup.speed, a, fmt)],
      ['Verdict', `${VERDICT_WORDS[a.verdict.state]}: ${a.verdict.reason}`],
      ['Never above', rpm === null ? null : fmt.speedLimit(rpm)],
    ),
    does: [
      'Chocks out, guard shut, tool clear.',
      'Slowest speed first. Watch the machine, not the part.',
      `Up one gear at a time${setup.speed === null ? '' : `, to ${fmt.speed(setup.speed)}`}.`,
    ],
    warns: [STAND, SHAKES, ...notJudged(a)],
    lit: [],
    power: true,
    barred: barOf(a) ?? (setup.speed === null ? 'Power stays off: no speed is chosen.' : null),
  })
}

/** A speed in rpm; one that stands above the ceiling is never written without it. */
function speedWords(rpm: number, { ceiling }: Analysis, fmt: Formatter): string {
  const over = ceiling.rpm !== null && isOver(rpm, ceiling.rpm)
  return `${fmt.speed(rpm)}${over ? `: above the ceiling, ${fmt.speedLimit(ceiling.rpm)}` : ''}`
}

/** What nobody has judged, in words that a verdict of `not judged` wants to be read. */
function notJudged(a: Analysis): string[] {
  if (a.verdict.state !== 'not-judged') return []
  const unknown = a.findings.filter((f) => f.effect === 'unknown' && holdsAt(f, 0)).length
  const more = unknown > 1 ? ` ${unknown} things are not known.` : ''
  return [`Not judged: ${a.verdict.reason}.${more} Find out before power.`]
}

/** One step for each cut, the clamps checked after the first; a bore is measured and cut again until it is to size. */
export function cutSteps(mounted: Mounted, a: Analysis, fmt: Formatter): Step[] {
  const bar = barOf(a)
  const cuts = cutPlaces(mounted).map(({ cut, diameter }, i) => {
    const rpm = mounted.setup.speed
    return step(`cut:${cut.id}`, 'cut', `${capital(cutWords(cut))}${i === 0 ? ', first cut' : ''}`, {
      facts: facts(
        ['Spindle', rpm === null ? 'no speed is chosen' : speedWords(rpm, a, fmt)],
        ['Tool', cut.tool],
        ['Diameter', fmt.length(diameter)],
        ['Feed', fmt.feed(cut.feed)],
        ['Depth a pass', 'depth' in cut ? fmt.length(cut.depth) : null],
        ['Bar', barFact(cut, fmt)],
      ),
      does: cutDoes(cut, i === 0),
      warns: [
        STAND,
        SHAKES,
        ...(cut.interrupted ? ['The cut is interrupted: it knocks on every turn.'] : []),
      ],
      lit: ['part'],
      power: true,
      barred: bar,
      entry: cut.kind === 'bore' ? 'size' : null,
      cut: cut.id,
    })
  })
  if (cuts.length === 0) return []
  return [cuts[0]!, checkStep(mounted), ...cuts.slice(1)]
}

function barFact(cut: Cut, fmt: Formatter): string | null {
  const bar = 'bar' in cut ? cut.bar : null
  return bar ? `${fmt.length(bar.diameter)}, ${fmt.length(bar.overhang)} out: ${overhangWords(bar)}` : null
}

function cutDoes(cut: Cut, first: boolean): string[] {
  const stop = first ? ['Stop after the first cut.'] : []
  if (cut.kind === 'bore') return ['Cut one pass, stop, measure, and give the size.', ...stop]
  if (cut.kind === 'ream') return ['Slow, oiled, never turned back.', ...stop]
  if (isBoreCut(cut)) return ['Break through slowly.', ...stop]
  return ['One pass at a time.', ...stop]
}

export function checkStep({ pieces }: Mounted): Step {
  const bolted = pieces.filter((p) => p.fastenings.length > 0 || p.bolt !== null)
  return step('check', 'check', 'Check every clamp', {
    does: [
      'Stop and isolate the drive.',
      'Every nut with the wrench again: clamps, stops, weights.',
      'Has anything moved from its mark?',
    ],
    warns: ['One that turns further was not tight: find out why before you go on.'],
    lit: bolted.map((p) => p.item.id),
  })
}

export const endStep = (): Step =>
  step('end', 'end', 'Finished', {
    does: [
      'Measure the bore before the clamps come off.',
      'Chock the plate, then take off the weights last-on first.',
      'Note what was done for next time.',
    ],
    lit: ['part'],
    entry: 'end',
  })
