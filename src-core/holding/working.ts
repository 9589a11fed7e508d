/** What a setup's bodies have to bear: the part its cuts besides, all of them turning, start and stop. */
import type { CuttingAdvice, CutRow } from '../cutting/advice.ts'
import { cutPlaces, cutWords, type CutPlace } from '../cutting/cutPlace.ts'
import type { Lathe } from '../job/schema.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import type { Mounted } from '../mounting/types.ts'
import type { Load, Loading } from './loads.ts'
import { cutHeights, cutLoads, drillLoads, loadingsOf } from './machineLoads.ts'
import type { Seat } from './seat.ts'

/** s: a time of start and of stop where none is given. Own choice: a brake or a quick clutch is no quicker. */
export const ASSUMED_TIME = 0.5

const times = ({ startTime, brakeTime }: Lathe) => ({
  startTime: startTime ?? ASSUMED_TIME,
  brakeTime: brakeTime ?? ASSUMED_TIME,
})

/** Of a piece that no tool touches. */
export const ownLoadings = (lathe: Lathe, body: MassMoments): Loading[] =>
  loadingsOf({ body, ...times(lathe), cuts: [] })

/** Of the part as mounted, or of what it is part of, on its seat; null where a cut is given whose force is not known. */
export function partLoadings(
  mounted: Mounted,
  body: MassMoments,
  cutting: CuttingAdvice | null,
  seat: Seat,
): Loading[] | null {
  const { job } = mounted
  const rows = cutting?.cuts ?? []
  const places = cutPlaces(mounted)
  const cuts: Loading[] = []
  for (const [i, row] of rows.entries()) {
    const there = cutLoadsOf(row, places[i]!, seat)
    if (!there) return null
    const name = rows.length === 1 && row.kind !== 'drill' ? 'the cut' : cutWords(places[i]!.cut)
    cuts.push(...there.map(({ loads }) => ({ name, loads })))
  }
  return loadingsOf({ body, ...times(job.lathe), cuts })
}

/** A cut's loads and the height in the plate's frame where it is made, mm. */
export interface CutLoads {
  readonly loads: readonly Load[]
  readonly height: number
}

/** A cut's loads, once for each height that has to be judged; null where its force is not known. */
export function cutLoadsOf(row: CutRow, { diameter, z0, z1 }: CutPlace, seat: Seat): CutLoads[] | null {
  const { tangential_force_N: tangential, torque_N_m: torque, thrust_N: thrust } = row
  if (torque === null) return null
  if (thrust !== null) return [{ loads: drillLoads(thrust, torque * 1000), height: z1 }]
  if (tangential === null) return null
  return cutHeights(seat, z0, z1).map((height) => ({
    loads: cutLoads({ tangential, torque: torque * 1000, radius: diameter / 2, height }),
    height,
  }))
}
