/** A stack that the search has chosen, in a plan's words. */
import type { Job } from '../job/schema.ts'
import type { Entry } from './entries.ts'
import type { Station } from './free.ts'
import type { PlanFasteners, PlanStack } from './report.ts'
import type { StackSpace } from './stackSpace.ts'

type Stack = NonNullable<Entry['stack']>

type BoltedStack = ({ readonly slot: string } | { readonly hole: string }) & {
  readonly stack: readonly PlanStack[]
  readonly fasteners: PlanFasteners
}

/** The pieces of a stack, and what bolts them to a station. */
export function boltedStack(job: Job, station: Station, space: StackSpace, stack: Stack): BoltedStack {
  const place = station.kind === 'slot' ? { slot: station.id } : { hole: station.id }
  const items = space.order(stack.pieces).map(({ index, count }) => ({ item: job.stock[index]!, count }))
  const { stud } = stack
  return {
    ...place,
    stack: items.map(({ item, count }) => ({ stock: item.id, count })),
    fasteners: {
      thread: stud.thread.name,
      class: stud.strength,
      class_given: stud.isClassGiven,
      length_mm: stud.length,
      stud: job.clampingKit?.studs[stud.kit]?.id ?? null,
      torque_N_m: stud.torque,
      nuts: stud.nuts,
      washers: 1,
      mass_kg: stud.mass / 1000,
      bore: items.flatMap(({ item }) => (typeof item.hole === 'number' ? [] : [item.id])),
    },
  }
}
