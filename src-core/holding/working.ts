/** What a setup's bodies have to bear: the part its cut besides, all of them turning, start and stop. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import type { Lathe } from '../job/schema.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import type { Mounted } from '../mounting/types.ts'
import type { Loading } from './loads.ts'
import { cutHeights, cutLoads, drillLoads, loadingsOf } from './machineLoads.ts'
import { plateSeat } from './seat.ts'

/** s: a time of start and of stop where none is given. Own choice: a brake or a quick clutch is no quicker. */
export const ASSUMED_TIME = 0.5

const times = ({ startTime, brakeTime }: Lathe) => ({
  startTime: startTime ?? ASSUMED_TIME,
  brakeTime: brakeTime ?? ASSUMED_TIME,
})

/** Of a piece that no tool touches. */
export const ownLoadings = (lathe: Lathe, body: MassMoments): Loading[] =>
  loadingsOf({ body, ...times(lathe), cuts: [], drilling: null })

/** Of the part as mounted; null where a cut is given whose force is not known. */
export function partLoadings(
  { job, setup, workBore }: Mounted,
  body: MassMoments,
  cutting: CuttingAdvice | null,
): Loading[] | null {
  if (!setup.cut || !workBore || !cutting) return ownLoadings(job.lathe, body)
  const { tangential_force_N: tangential, torque_N_m: torque } = cutting
  if (tangential === null || torque === null) return null
  const { drill_thrust_N: thrust, drill_torque_N_m: drillTorque } = cutting
  const radius = workBore.bore.diameter / 2
  const cuts = cutHeights(plateSeat(setup.packing), workBore.z0, workBore.z1).map((height) => ({
    name: 'the cut',
    loads: cutLoads({ tangential, torque: torque * 1000, radius, height }),
  }))
  const drilling = thrust === null || drillTorque === null ? null : drillLoads(thrust, drillTorque * 1000)
  return loadingsOf({ body, ...times(job.lathe), cuts, drilling })
}
