/** A part that stands on a base: a base flange that lies across with its bolt slots, and a bearing block by sizes. */
import { circleRing, oblongRing, rectRing } from '../../../src-core/geometry/edges.ts'
import type { Vertex } from '../../../src-core/geometry/types.ts'
import type { Job, Prism } from '../../../src-core/job/schema.ts'
import { byRule, sizeFor } from '../../../src-core/units/convert.ts'
import type { DisplayUnits } from '../../../src-core/units/format.ts'
import { removeBore } from './bodies.ts'
import { cutsToFinish } from './cuts.ts'
import { editJob, editSetup, freshId, type JobDraft } from './edit.ts'
import { roundTo } from '../snap.ts'

/** mm; `height` from the base's underside to the bore, `slots` of the base run along it. */
export interface BlockSizes {
  readonly height: number
  readonly base: { readonly along: number; readonly deep: number; readonly thickness: number }
  readonly slots: { readonly apart: number; readonly width: number; readonly length: number }
  readonly web: number
  readonly boss: { readonly diameter: number; readonly length: number }
  readonly bore: { readonly diameter: number; readonly start: number }
}

/** Proportions of a plain pedestal by the height of its bore, from memory: where to start. */
export function usualBlock(height: number, units: DisplayUnits = 'mm'): BlockSizes {
  const part = (share: number) => Math.max(sizeFor(units, 1, 1 / 16), byRule(share * height, units))
  return {
    height,
    base: { along: part(2.36), deep: part(1.26), thickness: part(0.32) },
    slots: { apart: part(1.8), width: part(0.21), length: part(0.35) },
    web: part(0.94),
    boss: { diameter: part(1.26), length: part(1.26) },
    bore: { diameter: part(0.66), start: part(0.6) },
  }
}

/** Across: the base lies below the part, which faces up. */
const UP = 90

/** A base whose underside lies `height` below the part's origin; its slots are holes. */
export function baseFlange(
  id: string,
  { height, base, slots }: Pick<BlockSizes, 'height' | 'base' | 'slots'>,
  back: number,
): Prism {
  const middle = back + base.deep / 2
  const holes =
    slots.width > 0
      ? [-1, 1].map((side) =>
          withBulges(oblongRing({ x: (side * slots.apart) / 2, y: middle }, slots.length, slots.width, 0)),
        )
      : []
  return {
    id,
    name: 'base',
    effect: 'adds',
    across: UP,
    base: -height,
    thickness: base.thickness,
    outline: withBulges(rectRing({ x: 0, y: middle }, base.along, base.deep, 0)),
    holes,
  }
}

const withBulges = (ring: readonly Vertex[]) =>
  ring.map(({ x, y, bulge = 0 }) => ({ x: roundTo(x, 1e-4), y: roundTo(y, 1e-4), bulge }))

/** What is wrong with sizes, as one would say it; null where they make a block. */
export function blockFault({ height, base, slots, web, boss, bore }: BlockSizes): string | null {
  const half = slots.apart / 2
  if (boss.diameter / 2 + base.thickness >= height)
    return 'Boss and base meet: the bore has to lie higher above the base.'
  if (bore.diameter >= boss.diameter) return 'The bore is no smaller than its boss.'
  if (bore.start > bore.diameter) return 'The hole that is there is larger than the bore.'
  if (half + Math.max(slots.length, slots.width) / 2 >= base.along / 2)
    return 'The slots leave the base at its ends.'
  if (half - Math.max(slots.length, slots.width) / 2 <= web / 2) return 'The slots lie under the web.'
  if (slots.width >= base.deep) return 'The slots are wider than the base is deep.'
  return null
}

/** Base, web and boss with its hole; the origin on the bore's axis in the part's back. */
export function blockBodies(sizes: BlockSizes): Prism[] {
  const { height, base, boss, bore } = sizes
  const deep = Math.max(base.deep, boss.length)
  const radius = boss.diameter / 2
  const foot = -height + base.thickness
  const half = sizes.web / 2
  // Up to the boss's flank, whose arc it ends in.
  const top = Math.min(half, 0.7 * radius)
  const meets = -Math.sqrt(radius ** 2 - top ** 2)
  const webDeep = Math.min(base.deep, boss.length) * 0.75
  return [
    baseFlange('base', sizes, (deep - base.deep) / 2),
    {
      id: 'web',
      name: 'web',
      effect: 'adds',
      base: roundTo((deep - webDeep) / 2, 0.01),
      thickness: roundTo(webDeep, 0.01),
      outline: [
        { x: -half, y: foot },
        { x: half, y: foot },
        { x: top, y: meets, bulge: -Math.tan(Math.asin(top / radius) / 2) },
        { x: -top, y: meets },
      ].map((v) => ({ bulge: 0, ...v })),
      holes: [],
    },
    {
      id: 'boss',
      name: 'boss',
      effect: 'adds',
      base: (deep - boss.length) / 2,
      thickness: boss.length,
      outline: withBulges(circleRing({ x: 0, y: 0 }, boss.diameter)),
      holes: bore.start > 0 ? [withBulges(circleRing({ x: 0, y: 0 }, bore.start))] : [],
    },
  ]
}

/** The part becomes the block, its bore on the axis of the setup and cut there. */
export function makeBlock(job: Job, setupId: string, sizes: BlockSizes): Job {
  const { diameter, start } = sizes.bore
  const bore = { id: 'A', x: 0, y: 0, diameter, start, depth: null }
  // What other setups have on the axis keeps its place in the part.
  const bare = job.part.bores.reduce((now, b) => removeBore(now, b.id), job)
  const made = editJob(bare, (draft) => {
    draft.part.bodies = blockBodies(sizes) as JobDraft['part']['bodies']
    draft.part.bores = [bore]
    draft.part.weighedMass = null
  })
  return editSetup(made, setupId, (s) => {
    s.centre = { bore: 'A' }
    s.turn = 0
    s.cuts = structuredClone(cutsToFinish(bore, job.displayUnits)) as typeof s.cuts
  })
}

/** A base put under what is there. */
export function addBase(job: Job, sizes: BlockSizes): { job: Job; id: string } {
  const id = freshId('base', job.part.bodies)
  const flange = baseFlange(id, sizes, 0)
  return {
    id,
    job: editJob(job, (d) => void d.part.bodies.push(flange as JobDraft['part']['bodies'][number])),
  }
}
