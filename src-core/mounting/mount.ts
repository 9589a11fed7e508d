/** Resolves a setup of a job into the plate frame. */
import { isPrism, type Bore, type Job, type Part, type Setup } from '../job/schema.ts'
import { boreRange } from '../mass/slabs.ts'
import { meshHeights, silhouette } from '../mesh/silhouette.ts'
import { mountPiece, type Bench } from './hardware.ts'
import { placePoint, placeRegion } from './place.ts'
import type { Mounted, MountedBody, MountedBore, Placement } from './types.ts'

/** Throws RangeError on an unknown setup, bore, slot or hole: `jobFaults` names those before. */
export function findSetup(job: Job, setupId: string): Setup {
  const setup = job.setups.find((s) => s.id === setupId)
  if (!setup) throw new RangeError(`no setup ${setupId}`)
  return setup
}

/** The point of the part, part frame, that sits on the spindle axis. */
export function centrePoint(part: Part, setup: Setup): { x: number; y: number } {
  const centre = setup.centre
  if (!('bore' in centre)) return centre
  const bore = part.bores.find((b) => b.id === centre.bore)
  if (!bore) throw new RangeError(`no bore ${centre.bore}`)
  return bore
}

export function setupPlacement(part: Part, setup: Setup): Placement {
  const c = centrePoint(part, setup)
  const at = placePoint({ turn: setup.turn, x: 0, y: 0 }, c)
  return { turn: setup.turn, x: -at.x, y: -at.y }
}

/** Bores that the setups before this one cut, in order, each once. */
export function boresCutBefore(job: Job, setup: Setup): Bore[] {
  const ids = new Set<string>()
  for (const s of job.setups) {
    if (s === setup) break
    if (s.cut) ids.add(s.cut.bore)
  }
  return [...ids].flatMap((id) => job.part.bores.find((b) => b.id === id) ?? [])
}

/** Bores gone once this setup's own cut is done. */
export function boresCutAfter(job: Job, setup: Setup): Bore[] {
  const before = boresCutBefore(job, setup)
  const own = setup.cut && job.part.bores.find((b) => b.id === setup.cut!.bore)
  return own && !before.includes(own) ? [...before, own] : before
}

export function mountSetup(job: Job, setupId: string): Mounted {
  const setup = findSetup(job, setupId)
  const placement = setupPlacement(job.part, setup)
  const bodies = job.part.bodies.map((body): MountedBody => {
    const regions = isPrism(body) ? [body] : silhouette(body.mesh)
    const z = isPrism(body) ? { z0: 0, z1: body.thickness } : meshHeights(body.mesh)
    return {
      body,
      regions: regions.map((r) => placeRegion(placement, r)),
      z0: setup.packing + body.base + z.z0,
      z1: setup.packing + body.base + z.z1,
    }
  })
  const before = new Set(boresCutBefore(job, setup).map((b) => b.id))
  const adding = bodies.filter((b) => b.body.effect === 'adds')
  const partFront = Math.max(setup.packing, ...adding.map((b) => b.z1))
  const partBack = Math.min(partFront, ...adding.map((b) => b.z0))
  const bores = job.part.bores.map((bore): MountedBore => {
    const range = boreRange(job.part, bore)
    return {
      bore,
      centre: placePoint(placement, bore),
      z0: range ? setup.packing + range.z0 : bore.depth === null ? partBack : partFront - bore.depth,
      z1: range ? setup.packing + range.z1 : partFront,
      state: before.has(bore.id) ? 'open' : setup.cut?.bore === bore.id ? 'to cut' : 'uncut',
      through: range ? range.through : bore.depth === null,
    }
  })
  const workId = setup.cut?.bore ?? ('bore' in setup.centre ? setup.centre.bore : null)
  const bench: Bench = { job, part: { placement, bodies, bores }, seat: setup.packing, front: partFront }
  return {
    job,
    setup,
    placement,
    bodies,
    bores,
    pieces: setup.hardware.map((item) => mountPiece(bench, item)),
    workBore: bores.find((b) => b.bore.id === workId) ?? null,
    partFront,
  }
}
