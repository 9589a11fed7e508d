/** Resolves a setup of a job into the plate frame. */
import type { Job, Part, Setup } from '../job/schema.ts'
import type { Bench } from './bench.ts'
import { carriedBack } from './carriedBack.ts'
import { centrePoint } from './cutAway.ts'
import { seatFixture } from './fixtures.ts'
import { mountPiece } from './hardware.ts'
import { seatedRound, shelvesInUse, viewFromShelf } from './onShelf.ts'
import { seatShelf } from './shelf.ts'
import { boresCutIn, mountPart } from './mountPart.ts'
import { placePoint } from './place.ts'
import type { Mounted, Placement } from './types.ts'

/** Throws RangeError on an unknown setup, bore, slot or hole: `jobFaults` names those before. */
export function findSetup(job: Job, setupId: string): Setup {
  const setup = job.setups.find((s) => s.id === setupId)
  if (!setup) throw new RangeError(`no setup ${setupId}`)
  return setup
}

/** Where the part's frame lies in the plate's, with the setup's centre on the axis: mm and degrees. */
export function setupPlacement(part: Part, setup: Setup): Placement {
  const c = centrePoint(part, setup)
  const at = placePoint({ turn: setup.turn, x: 0, y: 0 }, c)
  return { turn: setup.turn, x: -at.x, y: -at.y }
}

/**
 * A setup in the plate's frame, mm. Throws RangeError on an unknown setup, bore, slot or hole: `jobFaults` names those
 * before.
 */
export function mountSetup(job: Job, setupId: string): Mounted {
  const setup = findSetup(job, setupId)
  const placement = setupPlacement(job.part, setup)
  const ground = seatFixture(setup)?.thickness ?? 0
  // On a shelf packing lies between that and the part; how far it stands off the plate is given apart.
  const seat = seatShelf(setup) ? (setup.seat?.standOff ?? 0) : ground + setup.packing
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
    ...mountPieces(bench),
    workBore: bores.find((b) => b.bore.id === workId) ?? null,
    partFront,
  }
}

/** The pieces on the plate, and those on shelves with what they look like from there. */
function mountPieces(bench: Bench): Pick<Mounted, 'pieces' | 'shelves'> {
  const { setup } = bench
  const used = shelvesInUse(setup)
  if (used.length === 0) return { pieces: setup.hardware.map((item) => mountPiece(bench, item)) }
  const round = seatedRound(bench)
  const shelves = used
    .sort((a, b) => Number(b.id === setup.seat?.on) - Number(a.id === setup.seat?.on))
    .map((shelf) => viewFromShelf(bench, shelf, round))
  const onShelf = new Map(
    shelves.flatMap((view) => view.pieces.map((seen) => [seen.item.id, { view, seen }] as const)),
  )
  const pieces = setup.hardware.map((item) => {
    const there = onShelf.get(item.id)
    return there?.view.shelf ? carriedBack(there.view.shelf, item, there.seen) : mountPiece(bench, item)
  })
  return { pieces, shelves }
}
