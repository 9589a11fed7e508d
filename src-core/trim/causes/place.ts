import { directionOf, turnPoint } from '../../geometry/angles.ts'
import { partMass } from '../../mass/part.ts'
import { centrePoint, removedBefore } from '../../mounting/cutAway.ts'
import { changeSetup } from '../../planner/apply.ts'
import { directionWords } from '../../units/format.ts'
import { changeBy, type Bench, type Cause } from './cause.ts'

/** mm off its mark that is believed: more is seen with the eye. Own settings. */
const BELIEVED = { least: 0.2, most: 5 } as const

/** The part sits off its mark: its bore is not where the drawing has it, or was not brought to the axis. */
export function placeCauses(bench: Bench): Cause[] {
  const { job, mounted, missing, fmt } = bench
  const { setup } = mounted
  const mass = partMass(job.part, removedBefore(job, setup)).moments.m
  if (!(mass > 0)) return []
  const shift = { x: missing.x / (1000 * mass), y: missing.y / (1000 * mass) }
  const by = Math.hypot(shift.x, shift.y)
  if (by < BELIEVED.least || by > BELIEVED.most) return []
  const inPart = turnPoint(shift, -setup.turn)
  const centre = centrePoint(job.part, setup)
  const moved = changeSetup(job, setup.id, (s) => ({
    ...s,
    centre: { x: centre.x - inPart.x, y: centre.y - inPart.y },
  }))
  const bore =
    'bore' in setup.centre ? `Bore ${setup.centre.bore} may be off its place` : 'The part may be off its mark'
  const way = directionOf(shift)
  return [
    {
      cause: 'place',
      item: 'part',
      message: `${bore}: the part sits ${fmt.length(by)} too far toward ${directionWords(fmt, way)}. Put the indicator to it, and measure where the bore is on the part.`,
      change: changeBy(bench, moved),
      assumed: 2,
    },
  ]
}
