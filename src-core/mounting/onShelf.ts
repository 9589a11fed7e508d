/**
 * A shelf looked at as if it were the plate: the part on it and what stands on it in the shelf's own frame, so that all
 * that judges toes, heels, packing and studs judges them there.
 */
import { keptLast, keptOf } from '../geometry/kept.ts'
import { wholeTurn } from '../geometry/angles.ts'
import { oblongRing, rectRing } from '../geometry/edges.ts'
import { settled } from '../geometry/tolerance.ts'
import { dot3, minus3 } from '../geometry/space/vector.ts'
import type { Ring } from '../geometry/types.ts'
import type { Hardware, Job, Plate, Setup, Shelf } from '../job/schema.ts'
import type { Bench } from './bench.ts'
import { mountPiece } from './hardware.ts'
import { roundInVee } from './inVee.ts'
import type { MountedPart } from './material.ts'
import { mountPart } from './mountPart.ts'
import type { FacePlate } from './plateFace.ts'
import {
  carries,
  depthOf,
  holesInFrame,
  isVeeBlock,
  poseOfShelf,
  seatShelf,
  shelfOfBlock,
  shelfUnder,
  shelvesOf,
  slotsOf,
  standsOut,
} from './shelf.ts'
import { partFromShelf } from './shelfPart.ts'
import { blockOnShelf } from './veeBlock.ts'
import type { Mounted, MountedPiece, Placement, VeeRound } from './types.ts'

/** Whether a piece is mounted on a shelf: by its station, or as a bolt through a part that is seated there. */
const standsOn = (setup: Setup, shelf: Shelf, item: Hardware): boolean =>
  item.kind === 'bolt' ? seatShelf(setup)?.id === shelf.id : shelfUnder(setup.hardware, item)?.id === shelf.id

/** The shelves of a setup that the part or something else stands on. */
export const shelvesInUse = (setup: Setup): Shelf[] =>
  shelvesOf(setup).filter((s) => setup.seat?.on === s.id || setup.hardware.some((h) => standsOn(setup, s, h)))

/** The round of the part in the vee that it is seated in, as it looks from that; null where it is seated in none. */
export function seatedRound({ job, setup, part }: Bench): VeeRound | null {
  const vee = seatShelf(setup)
  if (vee?.kind !== 'vee') return null
  return roundInVee(vee, poseOfShelf(job.plate, vee, setup.hardware), part, setup.seat?.diameter ?? null)
}

/**
 * Turning part and shelf together changes nothing of it but the pose: its figures are settled, so that all that is kept of it
 * stays. @param bench of the plate. @param round of the part in its vee, as it looks from that.
 */
export function viewFromShelf(bench: Bench, shelf: Shelf, round: VeeRound | null): Mounted {
  const { job, setup, part: whole, seat } = bench
  const { placement } = whole
  const pose = poseOfShelf(job.plate, shelf, setup.hardware)
  const origin = minus3({ x: placement.x, y: placement.y, z: seat }, pose.origin)
  const seenPart = partFromShelf(
    job.part,
    shelf.id,
    wholeTurn(settled(wholeTurn(shelf.facing - placement.turn))),
    whole.turned.map((b) => b.body),
  )
  const { part: seen, slanted, lowest } = seenPart
  const carriesPart = setup.seat?.on === shelf.id
  const viewJob: Job = { ...job, plate: faceOf(shelf), part: seen }
  const viewSetup: Setup = {
    ...setup,
    centre: { x: 0, y: 0 },
    turn: 0,
    seat: null,
    packing: carriesPart ? setup.packing : 0,
    hardware: setup.hardware.filter((h) => standsOn(setup, shelf, h)).map(inView),
    cuts: [],
  }
  const place = { turn: 0, x: settled(dot3(origin, pose.u)), y: settled(dot3(origin, pose.v)) }
  const height = settled(dot3(origin, pose.n))
  const axis = { along: settled(-dot3(pose.origin, pose.u)), height: settled(-dot3(pose.origin, pose.n)) }
  const diameter = carriesPart ? (setup.seat?.diameter ?? null) : null
  const under = shelfOfBlock(setup.hardware, shelf)
  const vee = seatShelf(setup)
  const block = vee && shelfOfBlock(setup.hardware, vee)?.id === shelf.id && vee.kind === 'vee' ? vee : null
  const { part, front, pieces } = standingOn(viewJob, viewSetup, place, height)
  return {
    shelf: {
      item: shelf,
      under,
      block,
      pose,
      carriesPart,
      height,
      axis,
      slanted,
      slantedLow: lowest === null ? null : settled(height + lowest),
      diameter,
      round: roundOver(setup, shelf, round),
    },
    job: viewJob,
    setup: viewSetup,
    ...part,
    ground: 0,
    seat: viewSetup.packing,
    pieces,
    workBore: null,
    partFront: front,
  }
}

/** The round of the part in its vee, as it looks from that or from the shelf that the vee lies on; null from any other. */
function roundOver(setup: Setup, shelf: Shelf, round: VeeRound | null): VeeRound | null {
  const vee = seatShelf(setup)
  if (!round || !vee || !carries(setup.hardware, shelf, vee)) return null
  if (vee.id === shelf.id || !round.lies || !isVeeBlock(vee)) return round
  return { ...round, along: round.along + vee.at.along, crown: round.crown + vee.size[1] }
}

interface Standing {
  readonly part: MountedPart
  readonly front: number
  readonly pieces: readonly MountedPiece[]
}

const standings = keptLast<Plate, Standing>()

/** Part and pieces on a shelf; kept per face while all that they hang on is the same, as when something else is dragged. */
function standingOn(job: Job, setup: Setup, placement: Placement, height: number): Standing {
  const own = [job.part, job.stock, placement.x, placement.y, height, setup.packing]
  return standings(job.plate, [...own, ...setup.hardware], () => {
    const { front, bodies } = mountPart(job, setup, placement, height)
    const part = { placement, bodies, turned: [], bores: [] }
    const bench: Bench = { job, setup, part, ground: 0, seat: setup.packing, front }
    return { part, front, pieces: setup.hardware.map((item) => mountOn(bench, item)) }
  })
}

const mountOn = (bench: Bench, item: Hardware): MountedPiece =>
  item.kind === 'vee' && 'x' in item.at
    ? blockOnShelf(bench.job.plate, item, item.at)
    : mountPiece(bench, item)

const faces = keptLast<Shelf['size'], FacePlate>()

/** A shelf's face as a plate's; of a vee its lands, the mouth between them an opening. Kept wherever the shelf stands. */
function faceOf(shelf: Shelf): Plate {
  const own = shelf.kind === 'anglePlate' ? [shelf.slots, shelf.thickness] : [shelf.opening, shelf.angle]
  const on = [shelf.kind, shelf.holes, standsOut(shelf), ...own]
  return faces(shelf.size, on, () => makeFace(shelf), shelf.id)
}

function makeFace(shelf: Shelf): FacePlate {
  const [along, , out] = shelf.size
  const middle = { x: 0, y: standsOut(shelf) + out / 2 }
  const outline: Ring = rectRing(middle, along, out, 0)
  const mouth = shelf.kind === 'vee' ? rectRing(middle, shelf.opening, out, 0) : null
  return {
    name: shelf.id,
    diameter: 2 * Math.hypot(along, out),
    bore: 0,
    mass: 1,
    ratedSpeed: null,
    thickness: depthOf(shelf),
    slots: [],
    holes: holesInFrame(shelf),
    face: {
      outline,
      rim: `the edge of ${shelf.id}`,
      mouth,
      slots: slotsOf(shelf).map((s) => ({ ...s, ring: oblongRing(s, s.length, s.width, s.angle) })),
    },
  }
}

/** A piece of a shelf with its station in the shelf's frame; the same object for the same piece. */
const inView = keptOf((item: Hardware): Hardware => {
  if (!('at' in item) || !('on' in item.at)) return item
  const { at } = item
  const here = 'hole' in at ? { hole: at.hole } : { x: at.along, y: at.out }
  return { ...item, at: here } as Hardware
})
