/** Whether a clamp's toe, and the washer of a bolt through the part, lie wholly on solid material of the part. */
import { called, finding } from '../findings/finding.ts'
import { boxOf, widened } from '../geometry/polygonBox.ts'
import { polygonPlace } from '../geometry/polygon.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { polar } from '../geometry/angles.ts'
import { toeLength } from '../hardware/toe.ts'
import { isPrism, type Clamp } from '../job/schema.ts'
import { ringPolygons } from '../mounting/material.ts'
import { keptPer } from '../mounting/kept.ts'
import { unplacePoint } from '../mounting/place.ts'
import type { Mounted, MountedPiece, MountedToe } from '../mounting/types.ts'
import { meshHeights } from '../mesh/silhouette.ts'
import { surfaceUnder } from '../mesh/surface.ts'
import { formatter } from '../units/format.ts'
import { bareOf, facesNear, slideTo, whatLiesAt } from './bearing.ts'
import type { Ruling } from './ruling.ts'

/** mm by which a face under a toe may be out of level and still count as flat. Own choice. */
const FLAT = 0.2

export function toeRulings(mounted: Mounted, piece: MountedPiece): Ruling[] {
  const { item, toe } = piece
  if (item.kind !== 'clamp' || !toe) return []
  return offRuling(mounted, piece, item, toe) ?? meshRuling(mounted, piece, toe) ?? []
}

/** Whether a toe lies across the crown of a round in a vee, which it touches along a line. */
export function onCrown({ shelf }: Pick<Mounted, 'shelf'>, { pad, rest }: MountedToe): boolean {
  const round = shelf?.round
  if (!round?.lies || !rest || Math.abs(rest.z - round.crown) > FLAT) return false
  const x = pad.map((p) => p.x)
  const y = pad.map((p) => p.y)
  const over = Math.min(...x) <= round.along && Math.max(...x) >= round.along
  return over && Math.min(...y) >= round.length[0] && Math.max(...y) <= round.length[1]
}

function offRuling(mounted: Mounted, piece: MountedPiece, item: Clamp, toe: MountedToe): Ruling[] | null {
  if (onCrown(mounted, toe)) return null
  const pad = ringPolygons(toe.pad)
  const bare = toe.rest ? bareOf(mounted, pad, toe.rest.z) : pad
  if (bare.length === 0) return null
  const fmt = formatter(mounted.job.displayUnits)
  const place = polygonPlace(bare) ?? toe.at
  const slide = slideOf(mounted, piece)
  const name = called(item)
  const z = toe.rest?.z ?? slide?.z ?? mounted.partFront
  const lies = whatLiesAt(mounted, place, z)
  const cure = slide
    ? cureWords(item, fmt.length(Math.abs(slide.by)), slide.by)
    : 'Turn it, or give it another place'
  const message =
    !toe.rest && slide && slide.by > 0
      ? `Strap ${name} does not reach the part: ${fmt.length(slide.by)} short. ${cure}.`
      : `The toe of ${name} does not lie wholly on the part. Under it is ${lies}. ${slide ? `It is ${fmt.length(Math.abs(slide.by))} ${slide.by > 0 ? 'short of' : 'beyond'} solid material. ` : 'Nowhere along its line is there room for it. '}${cure}.`
  return [{ finding: finding('stop', 'toe-off', item.id, message, place), makes: 'nothing' }]
}

function cureWords(item: Clamp, by: string, way: number): string {
  const move = item.strap.slotted > 0 ? 'Slide its strap' : 'slot' in item.at ? 'Slide it' : 'Move it'
  return way > 0 ? `${move} ${by} in, or use a longer strap` : `${move} ${by} back, or use a shorter strap`
}

/** mm by which a clamp's toe is short of lying wholly on the part along its strap; null where sliding it in would not help. */
export function toeShortfall(mounted: Mounted, piece: MountedPiece): number | null {
  const slide = slideOf(mounted, piece)
  return slide && slide.by > 0 ? slide.by : null
}

/**
 * The nearest place along the strap where its toe would lie wholly on; at the height that it has, else at any. Kept, as
 * the picture of a strap asks for it after its check.
 */
const slideOf = keptPer((mounted, piece): { readonly by: number; readonly z: number } | null => {
  const { item, toe } = piece
  if (item.kind !== 'clamp' || !toe) return null
  const { strap, facing } = item
  const pad = { at: toe.at, length: toeLength(strap), width: strap.width, facing }
  const far = polar(400, facing)
  const box = boxOf([[toe.at, { x: toe.at.x + far.x, y: toe.at.y + far.y }, piece.at]])
  const wide = widened(box, 50)
  const heights = toe.rest ? [toe.rest.z, ...facesNear(mounted, wide)] : facesNear(mounted, wide)
  let best: { by: number; z: number } | null = null
  for (const z of heights) {
    const by = slideTo(mounted, pad, z)
    if (by !== null && Math.abs(by) > 1e-9 && (!best || Math.abs(by) < Math.abs(best.by))) best = { by, z }
    // The face that it lies on in part comes first.
    if (best && toe.rest) break
  }
  return best
})

/** A body from a mesh is known here by its silhouette; its true surface under the toe must be level at that height. */
function meshRuling(mounted: Mounted, { item }: MountedPiece, toe: MountedToe): Ruling[] | null {
  const { rest, pad } = toe
  if (!rest) return null
  const fmt = formatter(mounted.job.displayUnits)
  const corners = flattenRing(pad).map((p) => unplacePoint(mounted.placement, p))
  for (const { body, z0, z1 } of mounted.bodies) {
    if (isPrism(body) || body.effect !== 'adds' || z1 < rest.z - FLAT) continue
    const under = surfaceUnder(body.mesh, corners, FLAT)
    if (!under) continue
    const lift = z0 - meshHeights(body.mesh).z0
    const area = Math.abs(rectArea(corners))
    const level = Math.abs(under.z + lift - rest.z) <= FLAT && under.flat >= 0.995 * area
    if (level) continue
    const heights = `its surface lies between ${fmt.length(under.low + lift)} and ${fmt.length(under.z + lift)} from the plate there, and the toe is taken at ${fmt.length(rest.z)}`
    const message = `What the toe of ${called(item)} presses on is not known: body ${body.name ?? body.id} comes from a mesh and is not level there. It counts as holding nothing. Draw that face as a body of its own, or move the toe to the mesh's foremost level face; ${heights}.`
    return [{ finding: finding('caution', 'toe-on-mesh', item.id, message, toe.at), makes: 'unknown' }]
  }
  return null
}

function rectArea(ring: readonly { readonly x: number; readonly y: number }[]): number {
  let double = 0
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!
    double += p.x * q.y - q.x * p.y
  })
  return double / 2
}
