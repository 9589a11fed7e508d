// The planner on 12 kinds of stock and 8 slots, against brute force on a grid and against an integer program.
import { lessEq, solve, type Model } from 'yalps'
import { analyse } from '../src-core/analysis/analyse.ts'
import type { Job } from '../src-core/job/schema.ts'
import { planCounterweights } from '../src-core/planner/plan.ts'
import { gridSearch, trialJob } from '../tests/helpers/planTrials.ts'
import { median, times, type BenchRow } from './timing.ts'

/** An off-centre part, eight slots and twelve kinds of weight, drawn once from a fixed seed. */
const plannerJob = (): Job => trialJob(11, { kinds: 12, slots: 8 })

/** The same with twenty each of twelve kinds of 20 to 75 g: over a million stacks of up to twelve pieces. */
const lightJob = (seed: number): Job => {
  const job = trialJob(seed, { kinds: 12, slots: 8 })
  const stock = job.stock.map((s, i) => ({ ...s, mass: 0.02 + 0.005 * i, count: 20, height: 4 + (i % 5) }))
  return { ...job, stock }
}

async function lightRow(seed: number): Promise<BenchRow> {
  const job = lightJob(seed)
  const plan = () => planCounterweights(job, 'op10', { moveHardware: false })
  const { plans, searched } = plan()
  return {
    name: `planner, very light stock, ${Math.max(0, ...plans.map((p) => p.pieces))} pieces`,
    ms: await median(plan, 7, 2),
    ratio: `${searched.complete ? 'complete' : 'NOT complete'}, ${searched.stacks} stacks looked at`,
  }
}

/** Whole pieces at five radii a slot, sums of both components within a tolerance, fewest pieces: a linear program. */
function integerProgram(job: Job, tolerance: number): Model {
  const { unbalance } = analyse(job, 'op10')
  const a = (unbalance.static_angle_deg * Math.PI) / 180
  const variables = job.plate.slots.flatMap((slot) =>
    job.stock.flatMap((item) =>
      Array.from({ length: 5 }, (_, k) => {
        const radius = slot.from + ((slot.to - slot.from) * k) / 4
        const angle = (slot.angle * Math.PI) / 180
        const amount = item.mass * 1000 * radius
        return [
          `${slot.id} ${item.id} ${k}`,
          { x: amount * Math.cos(angle), y: amount * Math.sin(angle), pieces: 1, [item.id]: 1 },
        ] as const
      }),
    ),
  )
  const around = (v: number) => ({ min: -v - tolerance, max: -v + tolerance })
  return {
    direction: 'minimize',
    objective: 'pieces',
    constraints: {
      x: around(unbalance.static_g_mm * Math.cos(a)),
      y: around(unbalance.static_g_mm * Math.sin(a)),
      ...Object.fromEntries(job.stock.map((s) => [s.id, lessEq(s.count)])),
    },
    variables: Object.fromEntries(variables),
    integers: true,
  }
}

export async function plannerBench(): Promise<BenchRow[]> {
  const job = plannerJob()
  const two = await median(() => planCounterweights(job, 'op10', { stations: 2, moveHardware: false }), 7, 2)
  const three = await median(
    () => planCounterweights(job, 'op10', { stations: 3, moveHardware: false }),
    5,
    1,
  )
  const report = planCounterweights(job, 'op10', { stations: 2, moveHardware: false })
  const step = 4
  const grid = gridSearch(job, 2, step)
  const brute = await median(() => gridSearch(job, 2, step), 1, 0)
  const model = integerProgram(job, 500)
  const program = solve(model, { timeout: 20_000 })
  const linear = await median(() => solve(model, { timeout: 20_000 }), 3, 0)
  const best = report.plans[0]?.residual_g_mm ?? NaN
  return [
    {
      name: 'planner, 12 kinds of stock, 8 slots, one and two stations',
      ms: two,
      ratio: `${best.toFixed(1)} g·mm left`,
    },
    { name: 'planner, three stations too', ms: three, ratio: `${(three / two).toFixed(1)} × two stations` },
    await lightRow(11),
    await lightRow(12),
    {
      name: `  brute force, two pieces, radii every ${step} mm`,
      ms: brute,
      ratio: `ours ${times(brute, two)}; it leaves ${grid.two.toFixed(0)} g·mm`,
    },
    {
      name: '  yalps: whole pieces at five radii a slot, within 500 g·mm',
      ms: linear,
      ratio: `ours ${times(linear, two)}; ${program.status}${program.status === 'optimal' ? `, ${program.result} pieces` : ''}`,
    },
  ]
}
