/** The setup as it looks from a twin of the part. */
import type { Twin } from '../job/schema.ts'
import type { Bench } from './bench.ts'
import { mountPiece } from './hardware.ts'
import { twinBolts, twinPart } from './twin.ts'
import type { Mounted, MountedPiece } from './types.ts'

const kept = new WeakMap<MountedPiece, Mounted>()

/**
 * A mounted setup as it looks from a twin, so that all that judges a part and its bolts judges the twin: the twin is the
 * part, its own bolts go through it, packing and sub-plates are all else that there is, and nothing is cut.
 */
export function asTwin(mounted: Mounted, piece: MountedPiece, item: Twin): Mounted {
  let view = kept.get(piece)
  if (!view) kept.set(piece, (view = viewOf(mounted, item)))
  return view
}

function viewOf(mounted: Mounted, item: Twin): Mounted {
  const { job } = mounted
  const { front, ...part } = twinPart(mounted, item)
  const under = mounted.setup.hardware.filter((h) => h.kind === 'packing' || h.kind === 'fixture')
  const setup = {
    ...mounted.setup,
    turn: item.facing,
    seat: null,
    packing: item.raised,
    hardware: [...under, ...twinBolts(item)],
    cuts: [],
  }
  const bench: Bench = { job, setup, part, seat: item.raised, ground: 0, front }
  return {
    twin: item.id,
    job,
    setup,
    ...part,
    ground: 0,
    seat: item.raised,
    pieces: setup.hardware.map((h) => mountPiece(bench, h)),
    workBore: null,
    partFront: front,
  }
}
