import { MATERIALS } from '../../job/materials.ts'
import type { Job } from '../../job/schema.ts'
import { plain } from '../../units/format.ts'
import { changeBy, timesIn, type Bench, type Cause } from './cause.ts'

/** Shares by which a density may be off and still be believed: steel for iron is 9 %, a porous casting more. Own setting. */
const BELIEVED = { least: 0.02, most: 0.25 } as const
/** A share by which the model is changed to see what a density does; it does it in proportion. */
const TRIED = 0.01
/** A material whose density is this near is named. */
const NEAR = 0.015

/** The part, or one body of it, is heavier or lighter than said. */
export function densityCauses(bench: Bench): Cause[] {
  const { part } = bench.job
  if (part.weighedMass !== null) return weighed(bench, part.weighedMass)
  const whole = (share: number): Job => ({
    ...bench.job,
    part: {
      ...part,
      density: part.density * (1 + share),
      bodies: part.bodies.map((b) => (b.density ? { ...b, density: b.density * (1 + share) } : b)),
    },
  })
  const bodies =
    part.bodies.length < 2
      ? []
      : part.bodies.filter((b) => b.effect === 'adds').flatMap((b) => bodyCause(bench, b.id))
  return [...asShare(bench, 'part', 'The part', part.density, whole), ...bodies]
}

function bodyCause(bench: Bench, id: string): Cause[] {
  const { part } = bench.job
  const body = part.bodies.find((b) => b.id === id)!
  const density = body.density ?? part.density
  const changed = (share: number): Job => ({
    ...bench.job,
    part: {
      ...part,
      bodies: part.bodies.map((b) => (b === body ? { ...b, density: density * (1 + share) } : b)),
    },
  })
  return asShare(bench, id, `Body ${body.name ?? id}`, density, changed)
}

function asShare(
  bench: Bench,
  item: string,
  what: string,
  density: number,
  changed: (share: number) => Job,
): Cause[] {
  const share = TRIED * timesIn(bench.missing, changeBy(bench, changed(TRIED)))
  if (!believed(share)) return []
  const wanted = density * (1 + share)
  const named = MATERIALS.filter((m) => Math.abs(m.density / wanted - 1) < NEAR).map((m) => m.name)
  const like = named.length === 0 ? '' : `, about that of ${named.slice(0, 2).join(' or ')}`
  return [
    {
      cause: 'density',
      item,
      message: `${what} may be of another density: ${bench.fmt.density(wanted)} instead of ${bench.fmt.density(density)}${like}. Weigh the part.`,
      change: changeBy(bench, changed(share)),
      assumed: 1,
    },
  ]
}

function weighed(bench: Bench, mass: number): Cause[] {
  const changed = (share: number): Job => ({
    ...bench.job,
    part: { ...bench.job.part, weighedMass: mass * (1 + share) },
  })
  const share = TRIED * timesIn(bench.missing, changeBy(bench, changed(TRIED)))
  if (!believed(share)) return []
  return [
    {
      cause: 'density',
      item: 'part',
      message: `The weighed mass may be wrong: ${bench.fmt.mass(mass * (1 + share))} instead of ${bench.fmt.mass(mass)} (${plain(share * 100, 0)} %). Weigh the part again, without slings.`,
      change: changeBy(bench, changed(share)),
      assumed: 1,
    },
  ]
}

const believed = (share: number) => Math.abs(share) >= BELIEVED.least && Math.abs(share) <= BELIEVED.most
