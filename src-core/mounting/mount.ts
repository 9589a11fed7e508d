/** Resolves a setup of a job into the plate frame. */
import { isBoreCut, isPrism, type Job, type Part, type Setup } from '../job/schema.ts'
import { boreRange } from '../mass/slabs.ts'
import { meshHeights, silhouette } from '../mesh/silhouette.ts'
import type { Bench } from './bench.ts'
import { boresFinishedBefore, centrePoint } from './cutAway.ts'
import { seatFixture } from './fixtures.ts'
import { mountPiece } from './hardware.ts'
import { placePoint, placeRegion } from './place.ts'
import type { Mounted, MountedBody, MountedBore, Placement } from './types.ts'

/** Throws RangeError on an unknown setup, bore, slot or hole: `jobFaults` names those before. */
export function findSetup(job: Job, setupId: string): Setup {
  const setup = job.setups.find((s) => s.id === setupId)
  if (!setup) throw new RangeError(`no setup ${setupId}`)
  return setup
}

export function setupPlacement(part: Part, setup: Setup): Placement {
  const c = centrePoint(part, setup)
  const at = placePoint({ turn: setup.turn, x: 0, y: 0 }, c)
  return { turn: setup.turn, x: -at.x, y: -at.y }
}

export function mountSetup(job: Job, setupId: string): Mounted {
  const setup = findSetup(job, setupId)
  const placement = setupPlacement(job.part, setup)
  const ground = seatFixture(setup)?.thickness ?? 0
  const seat = ground + setup.packing
  const bodies = job.part.bodies.map((body): MountedBody => {
    const regions = isPrism(body) ? [body] : silhouette(body.mesh)
    const z = isPrism(body) ? { z0: 0, z1: body.thickness } : meshHeights(body.mesh)
    return {
      body,
      regions: regions.map((r) => placeRegion(placement, r)),
      z0: seat + body.base + z.z0,
      z1: seat + body.base + z.z1,
    }
  })
  const before = boresFinishedBefore(job, setup)
  const cutNow = new Set((setup.cuts ?? []).filter(isBoreCut).map((c) => c.bore))
  const adding = bodies.filter((b) => b.body.effect === 'adds')
  const partFront = Math.max(seat, ...adding.map((b) => b.z1))
  const partBack = Math.min(partFront, ...adding.map((b) => b.z0))
  const bores = job.part.bores.map((bore): MountedBore => {
    const range = boreRange(job.part, bore)
    return {
      bore,
      centre: placePoint(placement, bore),
      z0: range ? seat + range.z0 : bore.depth === null ? partBack : partFront - bore.depth,
      z1: range ? seat + range.z1 : partFront,
      state: before.has(bore.id) ? 'open' : cutNow.has(bore.id) ? 'to cut' : 'uncut',
      through: range ? range.through : bore.depth === null,
    }
  })
  const [firstCut] = cutNow
  const workId = firstCut ?? ('bore' in setup.centre ? setup.centre.bore : null)
  const bench: Bench = { job, setup, part: { placement, bodies, bores }, seat, ground, front: partFront }
  return {
    job,
    setup,
    placement,
    ground,
    seat,
    bodies,
    bores,
    pieces: setup.hardware.map((item) => mountPiece(bench, item)),
    workBore: bores.find((b) => b.bore.id === workId) ?? null,
    partFront,
  }
}
