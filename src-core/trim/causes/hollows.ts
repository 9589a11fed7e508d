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
  const { job, mounted } = bench
  const open = removedBefore(job, mounted.setup)
  const now = partVector(bench, open)
  const changeWith = (cut: readonly Removal[]): Point => {
    const then = partVector(bench, cut)
    return { x: then.x - now.x, y: then.y - now.y }
  }
  return mounted.bores.flatMap(({ bore, state }) =>
    state === 'open' ? stillSolid(bore, open, changeWith) : cored(bench, bore, open, changeWith),
  )
}

type ChangeWith = (cut: readonly Removal[]) => Point

/** g·mm, plate frame, of the part with these bores cut. */
function partVector({ job, mounted }: Bench, cut: readonly Removal[]): Point {
  const { x, y } = mountMass(mounted, partMass(job.part, cut))
  return { x: x * 1000, y: y * 1000 }
}

function cored(bench: Bench, bore: Bore, open: readonly Removal[], changeWith: ChangeWith): Cause[] {
  const share = timesIn(bench.missing, changeWith([...open, bore]))
  if (share < CORED.least || share > CORED.most) return []
  const diameter = bore.diameter * Math.sqrt(share)
  return [
    {
      cause: 'core',
      item: bore.id,
      message: `Hole ${bore.name ?? bore.id} may be cored or drilled already, to about ${bench.fmt.length(diameter)}. Look, and draw what is there.`,
      change: changeWith([...open, { ...bore, diameter }]),
      assumed: 1,
    },
  ]
}

const stillSolid = (bore: Bore, open: readonly Removal[], changeWith: ChangeWith): Cause[] => [
  {
    cause: 'core',
    item: bore.id,
    message: `Hole ${bore.name ?? bore.id} may not be cut yet: the job has it cut in an earlier setup.`,
    change: changeWith(open.filter((b) => b !== bore)),
    assumed: 0,
  },
]
