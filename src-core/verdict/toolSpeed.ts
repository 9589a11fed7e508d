/** What a tool wants of the spindle, and whether the setup may run at it: what wants is never a leave to run. */
import type { CutRow, CuttingAdvice } from '../cutting/advice.ts'
import { cutPlaces, cutWords, type CutPlace } from '../cutting/cutPlace.ts'
import { CUTTING_MARGIN, isTooFast, surfaceSpeed } from '../cutting/rpm.ts'
import { finding, type Finding } from '../findings/finding.ts'
import type { Lathe } from '../job/schema.ts'
import { backGearAt } from '../job/spindle.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { isOver } from './limits.ts'
import { verdictAt, type Judgement } from './speeds.ts'

/** Whether a speed in rpm may be offered: nothing stands against it, not even the doubt of the 95 % bound. */
export const mayBeSet = (rpm: number, judgement: Judgement): boolean => verdictAt(rpm, judgement) === 'go'

/**
 * What becomes of the speed that a tool wants, to follow "about so much wanted" and a comma.
 * @param set rpm nearest to it that the spindle can turn at; null where even the slowest is too fast for the tool.
 */
export function settingWords(set: number | null, judgement: Judgement, lathe: Lathe, fmt: Formatter): string {
  if (set === null) return 'even the slowest speed is too fast'
  if (mayBeSet(set, judgement)) return `${fmt.speed(set)} will do${backGearWords(lathe, set)}`
  const { rpm } = judgement.ceilings.bound
  if (rpm !== null && rpm > 0 && isOver(set, rpm)) return `but the ceiling is lower: ${fmt.speedLimit(rpm)}`
  return verdictAt(set, judgement) === 'stop'
    ? 'but as it is set up it may not run at that'
    : 'but whether it may run at that is not judged'
}

function backGearWords(lathe: Lathe, rpm: number): string {
  const gear = backGearAt(lathe, rpm)
  return gear === null ? '' : gear ? ', back gear in' : ', back gear out'
}

/** One finding for each cut: what it wants, and whether the chosen speed is hard on its tool. */
export function toolSpeedFindings(
  mounted: Mounted,
  advice: CuttingAdvice | null,
  judgement: Judgement,
): Finding[] {
  if (!advice) return []
  const places = cutPlaces(mounted)
  return advice.cuts.map((row, i) => toolSpeed(mounted, places[i]!, row, judgement))
}

function toolSpeed({ job, setup }: Mounted, place: CutPlace, row: CutRow, judgement: Judgement): Finding {
  const fmt = formatter(job.displayUnits)
  const { cut, diameter, item } = place
  const about = `about ${fmt.speed(Math.round(row.ideal_rpm))} wanted for ${cutWords(cut)} (${fmt.cuttingSpeed(cut.speed)} at ${fmt.length(diameter)})`
  const want = capital(`${about}, ${settingWords(row.set_rpm, judgement, job.lathe, fmt)}`)
  if (setup.speed === null || !isTooFast(setup.speed, row.ideal_rpm))
    return finding('note', 'cutting-speed', item, `${want}.`)
  const at = fmt.cuttingSpeed(surfaceSpeed(diameter, setup.speed))
  const message = `${fmt.speed(setup.speed)} is hard on the tool: ${at}. ${want}; a tool bears ${fmt.percent(CUTTING_MARGIN)} more than it wants.`
  return finding('caution', 'faster-than-cutting-speed', item, message)
}
