/** The bodies and bores of a part where it stands. */
import { isBoreCut, type Body, type Job, type Setup } from '../job/schema.ts'
import { boreRange } from '../mass/slabs.ts'
import { bodyShapes } from './bodyShapes.ts'
import { boresFinishedBefore } from './cutAway.ts'
import type { MountedPart } from './material.ts'
import { placePoint, placeRegion } from './place.ts'
import { turnedAway } from './turnedAway.ts'
import type { MountedBody, MountedBore, Placement } from './types.ts'

/** Ids of the bores that a setup cuts, the first cut first. */
export const boresCutIn = ({ cuts }: Setup): ReadonlySet<string> =>
  new Set((cuts ?? []).filter(isBoreCut).map((c) => c.bore))

/** @param seat z of its seat. `front` is that of its foremost body. */
export function mountPart(
  job: Job,
  setup: Setup,
  placement: Placement,
  seat: number,
): MountedPart & { readonly front: number } {
  const mounted = (body: Body): MountedBody[] =>
    bodyShapes(body).map((shape) => ({
      body,
      shape,
      regions: shape.regions.map((r) => placeRegion(placement, r)),
      z0: seat + shape.z0,
      z1: seat + shape.z1,
    }))
  const bodies = job.part.bodies.flatMap(mounted)
  const turned = turnedAway(job, setup).flatMap(mounted)
  const before = boresFinishedBefore(job, setup)
  const cutNow = boresCutIn(setup)
  const adding = bodies.filter((b) => b.body.effect === 'adds')
  const front = Math.max(seat, ...adding.map((b) => b.z1))
  const back = Math.min(front, ...adding.map((b) => b.z0))
  const bores = job.part.bores.map((bore): MountedBore => {
    const range = boreRange(job.part, bore)
    return {
      bore,
      centre: placePoint(placement, bore),
      z0: range ? seat + range.z0 : bore.depth === null ? back : front - bore.depth,
      z1: range ? seat + range.z1 : front,
      state: before.has(bore.id) ? 'open' : cutNow.has(bore.id) ? 'to cut' : 'uncut',
      through: range ? range.through : bore.depth === null,
    }
  })
  return { placement, bodies, turned, bores, front }
}
