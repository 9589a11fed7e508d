/** Results of checks kept per piece as long as nothing else that they hang on has changed. */
import type { Hardware, Plate } from '../job/schema.ts'
import { fixturesOf } from './fixtures.ts'
import type { Mounted, MountedPiece } from './types.ts'

/** A setup without its hardware: a token that is the same object as long as all of it is the same. */
type Surroundings = object

interface LastOf {
  readonly on: readonly unknown[]
  readonly token: Surroundings
}

/** Per body that is looked at as the part: the part itself under ''. */
const last = new WeakMap<Plate, Map<string, LastOf>>()

/** Whether two lists hold the same objects and figures in one order. */
export const sameList = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((v, i) => Object.is(v, b[i]))

const tokens = new WeakMap<Mounted, Surroundings>()

function surroundings(mounted: Mounted): Surroundings {
  let token = tokens.get(mounted)
  if (!token) tokens.set(mounted, (token = tokenOf(mounted)))
  return token
}

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
  const bodies = last.get(job.plate) ?? new Map<string, LastOf>()
  const before = bodies.get(twin)
  if (before && sameList(before.on, on)) return before.token
  const token = {}
  last.set(job.plate, bodies.set(twin, { on, token }))
  return token
}

/**
 * A check of a mounted setup and one piece, kept while the piece, the part and its place, plate, packing height and
 * speed are the same objects and figures, and so is whatever `also` gives.
 */
export function keptPer<R>(
  check: (mounted: Mounted, piece: MountedPiece) => R,
  also: (mounted: Mounted) => readonly unknown[] = () => [],
): (mounted: Mounted, piece: MountedPiece) => R {
  const results = new WeakMap<Surroundings, WeakMap<Hardware, { on: readonly unknown[]; result: R }>>()
  return (mounted, piece) => {
    const { item } = piece
    const token = surroundings(mounted)
    let pieces = results.get(token)
    if (!pieces) results.set(token, (pieces = new WeakMap()))
    const on = also(mounted)
    const known = pieces.get(item)
    if (known && sameList(known.on, on)) return known.result
    const result = check(mounted, piece)
    pieces.set(item, { on, result })
    return result
  }
}

/** The same of a whole setup, whose pieces `also` names. */
export function keptFor<R>(
  check: (mounted: Mounted) => R,
  also: (mounted: Mounted) => readonly unknown[],
): (mounted: Mounted) => R {
  const results = new WeakMap<Surroundings, { on: readonly unknown[]; result: R }>()
  return (mounted) => {
    const token = surroundings(mounted)
    const on = also(mounted)
    const known = results.get(token)
    if (known && sameList(known.on, on)) return known.result
    const result = check(mounted)
    results.set(token, { on, result })
    return result
  }
}
