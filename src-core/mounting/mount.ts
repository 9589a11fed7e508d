/** Resolves a setup of a job into the plate frame. */
import type { Job, Part, Setup } from '../job/schema.ts'
import type { Bench } from './bench.ts'
import { centrePoint } from './cutAway.ts'
import { seatFixture } from './fixtures.ts'
import { mountPiece } from './hardware.ts'
import { boresCutIn, mountPart } from './mountPart.ts'
import { placePoint } from './place.ts'
import type { Mounted, Placement } from './types.ts'

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
  const { bodies, turned, bores, front: partFront } = mountPart(job, setup, placement, seat)
  const cutNow = boresCutIn(setup)
  const [firstCut] = cutNow
  const workId = firstCut ?? ('bore' in setup.centre ? setup.centre.bore : null)
  const bench: Bench = {
    job,
    setup,
    part: { placement, bodies, turned, bores },
    seat,
    ground,
    front: partFront,
  }
  return {
    job,
    setup,
    placement,
    ground,
    seat,
    bodies,
    turned,
    bores,
    pieces: setup.hardware.map((item) => mountPiece(bench, item)),
    workBore: bores.find((b) => b.bore.id === workId) ?? null,
    partFront,
  }
}
