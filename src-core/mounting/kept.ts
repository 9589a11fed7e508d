/** Results of checks kept per piece as long as nothing else that they hang on has changed. */
import { keptLast, keptOf } from '../geometry/kept.ts'
import type { Hardware, Plate } from '../job/schema.ts'
import { fixturesOf } from './fixtures.ts'
import type { Mounted, MountedPiece } from './types.ts'

/** A setup without its hardware: a token that is the same object as long as all of it is the same. */
type Surroundings = object

/** Per body that is looked at as the part: the part itself under ''. */
const last = keptLast<Plate, Surroundings>()

const surroundings: (mounted: Mounted) => Surroundings = keptOf(tokenOf)

function tokenOf({ job, setup, placement, bores, turned, shelf, twin = '' }: Mounted): Surroundings {
  const on: unknown[] = [
    job.part,
    job.stock,
    job.uncertainty,
    job.displayUnits,
    placement.x,
    placement.y,
    placement.turn,
    shelf?.height,
    shelf?.axis.along,
    shelf?.axis.height,
    shelf?.carriesPart,
    shelf?.diameter,
    JSON.stringify(shelf?.round),
    shelf?.under?.id,
    shelf?.block?.size,
    setup.packing,
    setup.seat,
    setup.speed,
    ...fixturesOf(setup),
    ...bores.map((b) => b.state),
    ...turned.map((b) => b.body),
  ]
  return last(job.plate, on, () => ({}), twin)
}

/**
 * A check of a mounted setup and one piece, kept while the piece, the part and its place, plate, packing height and
 * speed are the same objects and figures, and so is whatever `also` gives.
 */
export function keptPer<R>(
  check: (mounted: Mounted, piece: MountedPiece) => R,
  also: (mounted: Mounted) => readonly unknown[] = () => [],
): (mounted: Mounted, piece: MountedPiece) => R {
  const results = keptOf(() => keptLast<Hardware, R>())
  return (mounted, piece) =>
    results(surroundings(mounted))(piece.item, also(mounted), () => check(mounted, piece))
}

/** The same of a whole setup, whose pieces `also` names. */
export function keptFor<R>(
  check: (mounted: Mounted) => R,
  also: (mounted: Mounted) => readonly unknown[],
): (mounted: Mounted) => R {
  const results = keptLast<Surroundings, R>()
  return (mounted) => results(surroundings(mounted), also(mounted), () => check(mounted))
}
