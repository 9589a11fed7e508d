/** A setup as steps to be done at the machine, one after the other, in the order in which they are done. */
import type { Analysis } from '../analysis/result.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { holdSteps, locateSteps, fixtureSteps, weightSteps } from './hold.ts'
import { clearStep, cutSteps, endStep, rollStep, startStep, turnStep } from './running.ts'
import { fetchStep, packingStep, partStep, plateStep } from './setUp.ts'
import type { Step } from './step.ts'

/** The steps of a mounted setup. The same job gives the same steps; ids stay as long as the pieces do. */
export function stepsOf(mounted: Mounted, analysis: Analysis): readonly Step[] {
  const fmt = formatter(mounted.job.displayUnits)
  return [
    fetchStep(mounted),
    plateStep(mounted, fmt),
    ...fixtureSteps(mounted, fmt),
    ...packingStep(mounted, fmt),
    partStep(mounted, analysis, fmt),
    ...locateSteps(mounted, fmt),
    ...holdSteps(mounted, fmt),
    ...weightSteps(mounted, fmt),
    clearStep(),
    turnStep(analysis, fmt),
    rollStep(analysis, fmt),
    startStep(mounted, analysis, fmt),
    ...cutSteps(mounted, analysis, fmt),
    endStep(),
  ]
}
