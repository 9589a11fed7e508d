/** What a drag does to the job, for each thing that can be dragged. Always from where it began, so nothing drifts. */
import { centrePoint } from '../../../src-core/mounting/cutAway.ts'
import { placePoint, unplacePoint } from '../../../src-core/mounting/place.ts'
import { fixturesOf } from '../../../src-core/mounting/fixtures.ts'
import { pressPoint } from '../../../src-core/mounting/press.ts'
import { angleOf, polar, toDegrees, wholeTurn } from '../../../src-core/geometry/angles.ts'
import { ringEdges } from '../../../src-core/geometry/edges.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { onFixtureWords } from '../../../src-core/hardware/words.ts'
import { isPrism, isShelf, isStationed, type Job } from '../../../src-core/job/schema.ts'
import type { Mounted, MountedPiece } from '../../../src-core/mounting/types.ts'
import { moveBolt, movePiece, moveNose } from '../edits/hardware.ts'
import { underPart } from '../edits/packingPlace.ts'
import { centreAfterMove, setCentre, setTurn } from '../edits/mounting.ts'
import type { Drag } from '../grab.ts'
import { freeStep, roundTo, snapAngle, snapPoint, type SnapTarget } from '../snap.ts'
import { REACH, reach } from '../reach.ts'
import { nearestStation } from '../stations.ts'
import type { Guide } from '../target.ts'
import { slideAlong } from './shelfTool.ts'

type Words = { length(mm: number): string }
const AXIS: Point = { x: 0, y: 0 }

/** Moves the part under the axis; a bore or an arc's centre that comes near the axis catches on it. */
export function movePart(mounted: Mounted, from: Point, words: Words): Drag<Guide> {
  const { job, setup, placement } = mounted
  const start = centrePoint(job.part, setup)
  const centres = axisTargets(mounted)
  return {
    label: 'Move the part',
    at: (input) => {
      const move = { x: input.world.x - from.x, y: input.world.y - from.y }
      // A centre snaps where, moved along, it would come to lie on the axis.
      const targets: SnapTarget[] = centres.map((c, i) => {
        const p = placePoint(placement, c.point)
        return { at: { x: -p.x, y: -p.y }, text: String(i), rank: c.bore ? 0 : 1 }
      })
      const caught = input.alt
        ? null
        : snapPoint(move, targets, input.pxPerMm, reach(REACH.snap, input.touch)).target
      if (caught) {
        const c = centres[Number(caught.text)]!
        const centre = c.bore
          ? { bore: c.bore }
          : { x: roundTo(c.point.x, 1e-4), y: roundTo(c.point.y, 1e-4) }
        return {
          job: setCentre(job, setup.id, centre),
          shown: {
            at: AXIS,
            text: c.bore ? `bore ${c.bore} on the axis` : 'arc centre on the axis',
            snapped: true,
          },
        }
      }
      const step = input.alt ? 0.01 : freeStep(input.pxPerMm, job.displayUnits)
      const free = centreAfterMove(start, setup.turn, move)
      const centre = { x: roundTo(free.x, step), y: roundTo(free.y, step) }
      return {
        job: setCentre(job, setup.id, centre),
        shown: {
          at: AXIS,
          text: `axis at ${words.length(centre.x)}, ${words.length(centre.y)} of the part`,
          snapped: false,
        },
      }
    },
  }
}

/** Bores first, then the centres of holes and arcs, part frame. */
function axisTargets(mounted: Mounted): { point: Point; bore: string | null }[] {
  const { part } = mounted.job
  const bores = part.bores.map((b) => ({ point: { x: b.x, y: b.y }, bore: b.id }))
  const arcs = part.bodies
    .filter(isPrism)
    .flatMap((b) =>
      [b.outline, ...b.holes].flatMap((ring) =>
        ring.length > 100 ? [] : ringEdges(ring).flatMap((e) => (e.arc ? [e.arc.centre] : [])),
      ),
    )
  const fresh = arcs.filter((p) => !bores.some((b) => Math.hypot(b.point.x - p.x, b.point.y - p.y) < 0.5))
  return [...bores, ...fresh.map((point) => ({ point, bore: null }))]
}

export function turnPart(mounted: Mounted, from: Point): Drag<Guide> {
  const { job, setup } = mounted
  const start = angleOf(from)
  return {
    label: 'Turn the part',
    at: (input) => {
      const now = angleOf(input.world)
      const raw = setup.turn + toDegrees(now - start)
      const free = { angle: wholeTurn(roundTo(raw, 0.1)), snapped: false }
      const { angle, snapped } = input.alt ? free : snapAngle(raw)
      return {
        job: setTurn(job, setup.id, angle),
        shown: { at: input.world, from: AXIS, text: `turned ${roundTo(angle, 0.1)}°`, snapped },
      }
    },
  }
}

/** A piece in a slot slides along it, and hops to another slot or hole when that is nearer; a loose one goes anywhere. */
export function slidePiece(mounted: Mounted, id: string, from: Point, words: Words): Drag<Guide> | null {
  const { job, setup } = mounted
  const piece = mounted.pieces.find((p) => p.item.id === id)
  if (piece?.shelf) return slideAlong(mounted, piece, from, words)
  if (piece?.item.kind === 'packing') return slidePacking(mounted, piece, from, words)
  if (piece?.item.kind === 'bolt') return slideBolt(mounted, piece, from, words)
  if (!piece || !isStationed(piece.item)) return null
  const stands = piece.item.at
  const loose = !('slot' in stands) && !('hole' in stands)
  // A sub-plate stands on the plate alone; with Shift held a piece stays in its slot.
  const fixtures = piece.item.kind === 'fixture' || isShelf(piece.item) ? [] : fixturesOf(setup)
  const kept = 'slot' in stands ? stands.slot : null
  return {
    label: `Move ${piece.item.name ?? piece.item.kind} ${id}`,
    at: (input) => {
      const wanted = { x: piece.at.x + input.world.x - from.x, y: piece.at.y + input.world.y - from.y }
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const station = loose
        ? null
        : nearestStation(slotOnly(input.shift, kept, job), wanted, step, input.shift ? [] : fixtures)
      if (!station) {
        const at = { x: roundTo(wanted.x, step), y: roundTo(wanted.y, step) }
        const text = `x ${words.length(at.x)}  y ${words.length(at.y)}`
        return { job: movePiece(job, setup.id, id, at), shown: { at, text, snapped: false } }
      }
      const { at, point } = station
      const text =
        'slot' in at
          ? `${at.slot}  r ${words.length(at.radius)}`
          : 'on' in at
            ? onFixtureWords(at, words.length)
            : 'hole' in at
              ? `hole ${at.hole}`
              : ''
      return {
        job: movePiece(job, setup.id, id, at),
        shown: { at: point, from: AXIS, text, snapped: 'slot' in at && at.slot !== kept },
      }
    },
  }
}

/** Packing stays under the part, unless Alt is held; beside it the guide warns. */
function slidePacking(mounted: Mounted, piece: MountedPiece, from: Point, words: Words): Drag<Guide> {
  const { job, setup } = mounted
  return {
    label: `Move ${piece.item.name ?? piece.item.kind} ${piece.item.id}`,
    at: (input) => {
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const wanted = { x: piece.at.x + input.world.x - from.x, y: piece.at.y + input.world.y - from.y }
      const { under, nearest } = underPart(mounted, wanted)
      const place = under || input.alt ? wanted : nearest
      const at = { x: roundTo(place.x, step), y: roundTo(place.y, step) }
      const text = under ? `x ${words.length(at.x)}  y ${words.length(at.y)}` : 'not under the part'
      return { job: movePiece(job, setup.id, piece.item.id, at), shown: { at, text, snapped: false } }
    },
  }
}

/** A bolt through the part goes with the part: its place is one of the part's. */
function slideBolt(mounted: Mounted, piece: MountedPiece, from: Point, words: Words): Drag<Guide> {
  const { job, setup, placement } = mounted
  return {
    label: `Move bolt ${piece.item.id}`,
    at: (input) => {
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const wanted = { x: piece.at.x + input.world.x - from.x, y: piece.at.y + input.world.y - from.y }
      const through = unplacePoint(placement, wanted)
      const at = { x: roundTo(through.x, step), y: roundTo(through.y, step) }
      const text = `x ${words.length(at.x)}  y ${words.length(at.y)} of the part`
      return {
        job: moveBolt(job, setup.id, piece.item.id, at),
        shown: { at: placePoint(placement, at), text, snapped: false },
      }
    },
  }
}

/** With Shift held a piece stays in its slot. */
function slotOnly(held: boolean, slot: string | null, job: Job) {
  if (!held || slot === null) return job.plate
  return { ...job.plate, holes: [], slots: job.plate.slots.filter((s) => s.id === slot) }
}

export function slideNose(mounted: Mounted, id: string, words: Words): Drag<Guide> | null {
  const { job, setup } = mounted
  const piece = mounted.pieces.find((p) => p.item.id === id)
  if (!piece || !pressPoint(piece) || (piece.item.kind !== 'press' && piece.item.kind !== 'clamp'))
    return null
  const { item } = piece
  return {
    label: `Move the nose of ${id}`,
    at: (input) => {
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const nose = { x: roundTo(input.world.x, step), y: roundTo(input.world.y, step) }
      const reach = Math.hypot(nose.x - piece.at.x, nose.y - piece.at.y)
      if (item.kind === 'clamp') {
        const next = moveNose(job, setup.id, id, nose)
        const turned = next.setups.find((s) => s.id === setup.id)?.hardware.find((h) => h.id === id)
        const facing = turned?.kind === 'clamp' ? turned.facing : item.facing
        const reach = polar(item.strap.boltFrom, facing)
        const end = { x: piece.at.x + reach.x, y: piece.at.y + reach.y }
        return {
          job: next,
          shown: { at: end, from: piece.at, text: `toe points ${facing}°`, snapped: false },
        }
      }
      return {
        job: moveNose(job, setup.id, id, nose),
        shown: { at: nose, from: piece.at, text: `bolt to work ${words.length(reach)}`, snapped: false },
      }
    },
  }
}
