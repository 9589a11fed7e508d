/** The joint of the part on its seat. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { leastWidth } from '../geometry/hullPoints.ts'
import type { Point } from '../geometry/types.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import { isSound } from '../mounting/material.ts'
import type { Mounted } from '../mounting/types.ts'
import { CONTACT_CHORD, touchingOf, type BuiltJoint } from './builtJoint.ts'
import type { ClampState } from './clampState.ts'
import { ContactHull } from './contact.ts'
import { frictionOf } from './friction.ts'
import { padFriction, standsAlone, type Face } from './opening.ts'
import { packingOf, type Carried } from './packing.ts'
import { partContact } from './partContact.ts'
import { studPresses, type Press } from './presses.ts'
import { seatAt, standWords } from './stand.ts'
import { studOf } from './studJoint.ts'
import { partLoadings } from './working.ts'

/** A piece of packing that carries the part. */
export interface Pad extends Carried {
  readonly height: number
  /** Its least. */
  readonly width: number
  /** Of what it carries. */
  readonly hull: ContactHull
}

export interface PartJoint extends BuiltJoint {
  /** Packing so tall that it tips before it slides. */
  readonly tall: readonly Pad[]
  /** Packing that no press must bear on: the others could carry all. */
  readonly unpressed: readonly string[]
}

/**
 * @param whole the setup, and `mounted` as it looks from what carries the part.
 * @param body mass moments of the part as mounted, plate frame.
 */
export function partJoint(
  whole: Mounted,
  mounted: Mounted,
  body: MassMoments,
  cutting: CuttingAdvice | null,
  states: readonly ClampState[],
): PartJoint {
  const { setup } = mounted
  const sound = isSound(whole)
  const contact = sound ? partContact(mounted) : []
  const packing = packingOf(mounted)
  const pads = contact.flatMap((c): Pad[] => {
    const solid = packing.find((p) => p.piece.item.id === c.id)?.solid
    if (!solid) return []
    const width = leastWidth(flattenRing(solid.ring, CONTACT_CHORD))
    return [{ ...c, height: setup.packing, width, hull: new ContactHull(c.on.flat()) }]
  })
  const touching = touchingOf(contact.flatMap((c) => c.on))
  const hull = new ContactHull(touching)
  const friction = frictionOf(whole.job, whole.setup)
  const loadings = partLoadings(whole, body, cutting, seatAt(mounted, mounted.seat))
  const holding = states.filter((s) => s.state === 'holds')
  const unknown = states.filter((s) => s.state === 'unknown')
  const lacks = [
    ...(sound ? [] : ['its outline is faulty']),
    ...(setup.packing > 0 && packing.length === 0 ? ['the packing that it stands on is not listed'] : []),
    ...(loadings ? [] : ['the force of its cut is not known']),
    ...(holding.length === 0 && unknown.length > 0 ? ['how hard any clamp presses is not known'] : []),
    // One that may press beyond what touches might tip it off.
    ...unknown
      .filter((s) => !pressesOver(s, hull))
      .map((s) => `how hard ${s.piece.item.id} presses beyond what carries the part is not known`),
  ]
  const input = {
    seat: seatAt(mounted, mounted.seat),
    touching,
    face: faceOf(contact.length, touching),
    grip: { presses: holding.flatMap((s) => pressesOf(s, pads, friction)) },
    friction,
    loadings: loadings ?? [],
  }
  return {
    id: 'part',
    kind: 'part',
    what: mounted.shelf ? `the part on ${standWords(mounted)}` : 'the part on its seat',
    name: 'The part',
    quiet: false,
    at: null,
    input: lacks.length > 0 ? null : input,
    lacks,
    unknown: unknown.map((s) => s.piece.item.id),
    tall: pads.filter((p) => standsAlone(p.height, p.width, friction)),
    unpressed: unpressedOf(
      pads,
      states.filter((s) => s.state !== 'nothing').flatMap((s) => pressesOf(s, [], friction)),
    ),
  }
}

/**
 * A pad is pressed for certain where a press lies over it, or where one lies beyond what the other pads reach; how the
 * rest is shared among more pads than three hangs on their heights to a hair.
 */
function unpressedOf(pads: readonly Pad[], presses: readonly Press[]): string[] {
  if (presses.length === 0) return []
  return pads.flatMap((pad) => {
    if (presses.some((p) => pad.hull.holds(p.at))) return []
    const others = new ContactHull(pads.filter((p) => p !== pad).flatMap((p) => p.hull.points))
    return presses.some((p) => !others.holds(p.at)) ? [] : [pad.id]
  })
}

/** Where a clamp presses: at its toe, or through the ring of a bolt's washer. */
export function pressesOf(state: ClampState, pads: readonly Pad[], friction: number): Press[] {
  const { piece, low, high, at } = state
  const [fastening] = piece.fastenings
  const presses: Press[] =
    piece.item.kind === 'bolt' && fastening
      ? studPresses(studOf(piece.item.id, fastening, { low, high }))
      : [{ id: piece.item.id, at, force: low, high }]
  return presses.map((p) => ({ ...p, friction: frictionUnder(p.at, pads, friction) }))
}

const pressesOver = (state: ClampState, hull: ContactHull): boolean =>
  pressesOf(state, [], 0).every((p) => hull.holds(p.at))

/** Of a press over pads what the worst of them carries; between pads what the worst of all does. */
function frictionUnder(at: Point, pads: readonly Pad[], friction: number): number {
  const over = pads.filter((p) => p.hull.holds(at))
  return Math.min(
    friction,
    ...(over.length > 0 ? over : pads).map((p) => padFriction(p.height, p.width, friction)),
  )
}

/** mm: corners of a round face lie within this of one circle. */
const ROUND = 1
/** Fewest corners of a face that passes for round. */
const CORNERS = 12

/** @param areas how many places touch. */
export function faceOf(areas: number, touching: readonly Point[]): Face {
  if (areas !== 1) return 'pads'
  const n = Math.max(1, touching.length)
  const middle = { x: sum(touching, 'x') / n, y: sum(touching, 'y') / n }
  const radii = touching.map((p) => Math.hypot(p.x - middle.x, p.y - middle.y))
  return touching.length >= CORNERS && Math.max(...radii) - Math.min(...radii) < ROUND ? 'round' : 'flat'
}

const sum = (points: readonly Point[], c: 'x' | 'y'): number => points.reduce((s, p) => s + p[c], 0)
