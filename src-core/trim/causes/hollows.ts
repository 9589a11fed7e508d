import type { Point } from '../../geometry/types.ts'
import type { Bore } from '../../job/schema.ts'
import { partMass } from '../../mass/part.ts'
import type { Removal } from '../../mass/slabs.ts'
import { removedBefore } from '../../mounting/cutAway.ts'
import { mountMass } from '../../unbalance/assembly.ts'
import { timesIn, type Bench, type Cause } from './cause.ts'

/** Shares of a bore's section that a core may have. Own setting. */
const CORED = { least: 0.1, most: 1.1 } as const

/** Holes that are cast in though the job has them solid, and holes that are still solid though it has them open. */
export function hollowCauses(bench: Bench): Cause[] {
  return bench.mounted.bores.flatMap(({ bore, state }) =>
    state === 'open' ? stillSolid(bench, bore) : cored(bench, bore),
  )
}

/** g·mm, plate frame, of the part with these bores cut. */
function partVector({ job, mounted }: Bench, cut: readonly Removal[]): Point {
  const { x, y } = mountMass(mounted, partMass(job.part, cut))
  return { x: x * 1000, y: y * 1000 }
}

function changeWith(bench: Bench, cut: readonly Removal[]): Point {
  const now = partVector(bench, removedBefore(bench.job, bench.mounted.setup))
  const then = partVector(bench, cut)
  return { x: then.x - now.x, y: then.y - now.y }
}

function cored(bench: Bench, bore: Bore): Cause[] {
  const open = removedBefore(bench.job, bench.mounted.setup)
  const share = timesIn(bench.missing, changeWith(bench, [...open, bore]))
  if (share < CORED.least || share > CORED.most) return []
  const diameter = bore.diameter * Math.sqrt(share)
  return [
    {
      cause: 'core',
      item: bore.id,
      message: `Hole ${bore.name ?? bore.id} may be cored or drilled already, to about ${bench.fmt.length(diameter)}. Look, and draw what is there.`,
      change: changeWith(bench, [...open, { ...bore, diameter }]),
      assumed: 1,
    },
  ]
}

function stillSolid(bench: Bench, bore: Bore): Cause[] {
  const open = removedBefore(bench.job, bench.mounted.setup)
  return [
    {
      cause: 'core',
      item: bore.id,
      message: `Hole ${bore.name ?? bore.id} may not be cut yet: the job has it cut in an earlier setup.`,
      change: changeWith(
        bench,
        open.filter((b) => b !== bore),
      ),
      assumed: 0,
    },
  ]
}
