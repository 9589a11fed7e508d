/** The cuts of a setup: tool, size, passes, speed and feed, with room for what is measured. */
import type { Analysis } from '../../analysis/result.ts'
import { cutPlaces, cutWords, type CutPlace } from '../../cutting/cutPlace.ts'
import type { Job } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import { planPasses } from '../../passes/borePasses.ts'
import { boreWorks } from '../../passes/boreTask.ts'
import { convert } from '../../units/convert.ts'
import { formatter, plain } from '../../units/format.ts'
import { dimensionText } from '../views/view.ts'
import { NONE, TO_WRITE, lengthUnit } from './cells.ts'
import type { TableInput } from './table.ts'

/** Null where the setup cuts nothing, or nothing is known of it. */
export function cutTable(mounted: Mounted, analysis: Analysis): TableInput | null {
  const places = cutPlaces(mounted)
  if (places.length === 0) return null
  const { job } = mounted
  const inch = job.displayUnits === 'in'
  const fmt = formatter(job.displayUnits)
  const rows = places.map((place, i) => {
    const { cut, bore, diameter } = place
    const passes = passesOf(mounted, place, places)
    const advice = analysis.cutting?.cuts[i]
    return [
      cutWords(cut),
      cut.tool,
      `Ø${dimensionText(job, diameter)}${bore ? toleranceWords(job, place) : ''}`,
      bore?.through ? 'through' : dimensionText(job, place.z1 - place.z0),
      'depth' in cut ? dimensionText(job, cut.depth) : NONE,
      passes === null ? NONE : plain(passes, 0),
      plain(inch ? convert(cut.speed, 'm', 'ft') : cut.speed, 0),
      inch ? plain(convert(cut.feed, 'mm', 'in'), 4) : plain(cut.feed, 3),
      advice ? plain(advice.ideal_rpm, 0) : NONE,
      '',
    ]
  })
  return {
    title: 'Cuts',
    remark: `${mounted.setup.speed === null ? 'No speed chosen yet' : `Run at ${fmt.speed(mounted.setup.speed)}`}; ${inch ? 'ft/min' : 'm/min'} and tool rpm: what the tool would take, not to be set. ${lengthUnit(job)}.`,
    columns: [
      { title: 'Cut', wraps: true },
      { title: 'Tool' },
      { title: 'To', wraps: true },
      { title: 'Deep', align: 'end' },
      { title: 'A pass', align: 'end' },
      { title: 'Passes', align: 'end' },
      { title: inch ? 'ft/min' : 'm/min', align: 'end' },
      { title: inch ? 'in/rev' : 'mm/rev', align: 'end' },
      { title: 'Tool rpm', align: 'end' },
      { title: 'Measured', least: TO_WRITE },
    ],
    rows,
    small: true,
  }
}

function toleranceWords(job: Job, { bore, cut }: CutPlace): string {
  if (cut.kind === 'drill' || !bore) return ''
  const { tolerance } = bore.bore
  if (!tolerance) return ', tolerance not given'
  if ('class' in tolerance) return ` ${tolerance.class}`
  return ` (${tolerance.limits.map((l) => dimensionLimit(job, l)).join(' to ')})`
}

/** A limit of size to a thousandth of a millimetre or a ten-thousandth of an inch. */
const dimensionLimit = ({ displayUnits }: Job, mm: number): string =>
  displayUnits === 'in' ? plain(convert(mm, 'mm', 'in'), 4) : plain(mm, 3)

/**
 * As the passes to size are listed; without a tolerance so many of the cut's depth as lead from what is there, or what a
 * drill leaves, to the finished size. Null where nothing opens the bore, and where no pass is left to cut.
 */
function passesOf({ job, setup }: Mounted, { cut, bore }: CutPlace, all: readonly CutPlace[]): number | null {
  if (cut.kind !== 'bore' || !bore) return null
  const work = boreWorks(job, setup).find((w) => w.cut === cut)
  if (work?.ok) {
    const plan = planPasses(work.task)
    return plan.state === 'cut' ? plan.passes.length : null
  }
  const drilled = all.flatMap((p) => (p.bore === bore && p.cut.kind === 'drill' ? [p.cut.diameter] : []))
  const start = Math.max(bore.bore.start, ...drilled)
  return start > 0 ? Math.max(1, Math.ceil((bore.bore.diameter - start) / 2 / cut.depth - 1e-9)) : null
}
