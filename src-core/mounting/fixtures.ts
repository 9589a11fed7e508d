/** Sub-plates: where they lie on the plate, the tapped holes that they offer, and what stands on their face. */
import { circleRing } from '../geometry/edges.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import type { Polygons } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { findThread } from '../hardware/threads.ts'
import type { At, Fixture, Hardware, Plate, Setup } from '../job/schema.ts'
import { placePoint } from './place.ts'
import { anchorAt, standOnPlate, type Anchor, type Stand } from './plateFace.ts'
import { facingOf, fixtureNamed, stationPoint } from './station.ts'
import type { Mounted, Placement } from './types.ts'

/** mm by which heights that are to meet may miss: a sheet of paper. Own choice. */
const PLAY = 0.05

export const fixturesOf = ({ hardware }: Pick<Setup, 'hardware'>): Fixture[] =>
  hardware.filter((h) => h.kind === 'fixture')

/** The fixture that the part stands on; null: the plate. */
export const seatFixture = ({ seat, hardware }: Setup): Fixture | null =>
  seat ? fixtureNamed(hardware, seat.on) : null

/** The fixture that a piece is bolted to by its station; null: the plate. */
export const standsOnFixture = (hardware: readonly Hardware[], at: At): Fixture | null =>
  'on' in at ? fixtureNamed(hardware, at.on) : null

/** mm from the plate's face to the face that stands at a station. */
export const groundAt = (hardware: readonly Hardware[], at: At): number =>
  standsOnFixture(hardware, at)?.thickness ?? 0

/** A fixture's own frame in the plate's. */
export function fixtureFrame(plate: Plate, item: Fixture): Placement {
  const { x, y } = stationPoint(plate, item.at, [])
  return { turn: facingOf(plate, item, []), x, y }
}

/** The slot or hole of the plate behind a point; the point itself over solid plate. */
export function stationOver(plate: Plate, p: Point): At {
  const anchor = anchorAt(plate, p)
  if (!anchor) return { x: p.x, y: p.y }
  return anchor.kind === 'slot' ? { slot: anchor.id, radius: Math.hypot(p.x, p.y) } : { hole: anchor.id }
}

/** Its openings, plate frame: the bore first. A tapped hole is as wide as its thread. */
export function fixtureOpenings(plate: Plate, item: Fixture): Ring[] {
  const frame = fixtureFrame(plate, item)
  const bore = item.bore > 0 ? [circleRing(placePoint(frame, { x: 0, y: 0 }), item.bore)] : []
  return [...bore, ...item.holes.map((h) => circleRing(placePoint(frame, h), holeWidth(h)))]
}

/** Its holes by their names on a drawing, such as `F1 H3`; plate frame, mm. */
export function fixtureHoles(
  plate: Plate,
  item: Fixture,
): { id: string; x: number; y: number; diameter: number }[] {
  const frame = fixtureFrame(plate, item)
  return item.holes.map((h) => {
    const { x, y } = placePoint(frame, h)
    return { id: `${item.id} ${h.id}`, x, y, diameter: holeWidth(h) }
  })
}

const holeWidth = ({ diameter, thread }: Fixture['holes'][number]): number =>
  Math.max(diameter, findThread(thread ?? '')?.diameter ?? 0)

/** A tapped hole of a sub-plate at a point of the plate, in front of whatever the plate has there. */
export interface TappedHole {
  readonly fixture: Fixture
  readonly anchor: Anchor
}

/** @param but a fixture whose own bolts go through it. */
export function tappedAt(
  plate: Plate,
  fixtures: readonly Fixture[],
  p: Point,
  but: string | null = null,
): TappedHole | null {
  for (const fixture of fixtures) {
    if (fixture.id === but) continue
    const frame = fixtureFrame(plate, fixture)
    for (const h of fixture.holes) {
      if (!h.thread) continue
      const at = placePoint(frame, h)
      const off = Math.hypot(p.x - at.x, p.y - at.y)
      if (off >= holeWidth(h) / 2) continue
      const id = `${h.id} of ${fixture.id}`
      return {
        fixture,
        anchor: { kind: 'hole', id, width: h.diameter, off, thread: h.thread, depth: fixture.thickness },
      }
    }
  }
  return null
}

/** What a piece's bolt goes into at a point: a tapped hole of a sub-plate, else the plate's slot or hole; null over solid plate. */
export const anchorUnder = (
  { job, setup }: Pick<Mounted, 'job' | 'setup'>,
  id: string,
  p: Point,
): Anchor | null => tappedAt(job.plate, fixturesOf(setup), p, id)?.anchor ?? anchorAt(job.plate, p)

/** How a foot stands at a height, on the plate's face or on those of its fixtures; null where no face is as high. */
export function standAt(mounted: Pick<Mounted, 'job' | 'pieces'>, foot: Polygons, z: number): Stand | null {
  if (Math.abs(z) <= PLAY) return standOnPlate(mounted.job.plate, foot)
  const faces = mounted.pieces.flatMap(({ item, solids }) =>
    item.kind === 'fixture' && Math.abs(item.thickness - z) <= PLAY
      ? [{ id: item.id, face: solids.filter((s) => s.role === 'fixture') }]
      : [],
  )
  if (faces.length === 0) return null
  const area = polygonArea(foot)
  const on = faces.flatMap(({ face }) =>
    face.flatMap(({ ring, holes = [] }) =>
      polygonIntersection(
        foot,
        [ring, ...holes].map((r) => flattenRing(r, TOLERANCE.clashChord)),
      ),
    ),
  )
  const share = area > 0 ? polygonArea(on) / area : 0
  const whole = area - polygonArea(on) <= TOLERANCE.clashArea
  return { on, share, over: whole ? [] : faces.map((f) => `an edge of ${f.id}`) }
}
