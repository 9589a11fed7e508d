/** The bolts of angle plates and vees on their own feet: each wants foot under its washer, and room beside web and shelf. */
import { solidInSpace } from '../clearance/inSpace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { clashOf, deepest } from '../geometry/space/solid.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import { KIND_WORDS } from '../hardware/words.ts'
import { hangsAt, pressesOver } from '../holding/washerContact.ts'
import { isShelf, type Shelf } from '../job/schema.ts'
import { ringPolygons } from '../mounting/material.ts'
import { footFace } from '../mounting/shelfSolids.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'

export function footBoltFindings({ job, pieces }: Mounted): Finding[] {
  const fmt = formatter(job.displayUnits)
  return pieces.flatMap((piece) => {
    const { item, solids } = piece
    if (!isShelf(item)) return []
    const own = solids.filter((s) => s.role === 'fixture')
    const foot = own.filter((s) => isFoot(s, item))
    return [
      ...besideFoot(piece, item, foot),
      ...inItself(
        piece,
        item,
        own.filter((s) => !foot.includes(s)),
        fmt,
      ),
    ]
  })
}

/** What its washers lie on. */
const isFoot = ({ lies, z0, z1 }: MountedSolid, item: Shelf): boolean =>
  !lies && z0 === 0 && Math.abs(z1 - footFace(item)) <= ROUNDING.length

/** What presses on nothing holds nothing. */
function besideFoot(
  { fastenings }: MountedPiece,
  item: Shelf,
  foot: readonly MountedSolid[],
): readonly Finding[] {
  const solid = foot.flatMap((s) => ringPolygons(s.ring))
  return fastenings.flatMap((f) => {
    const { at } = f
    if (!hangsAt(solid, at, pressesOver(f))) return []
    const message = `The washer of a bolt of ${item.id} does not lie on its foot all round. Put the bolt through the foot, a washer's half width from its edge at least.`
    return [finding('stop', 'washer-off', item.id, message, at)]
  })
}

/** A bolt that goes through its web, shelf or block, or whose nut and washer do. */
function inItself(
  { solids }: MountedPiece,
  item: Shelf,
  body: readonly MountedSolid[],
  fmt: Formatter,
): Finding[] {
  const bolts = solids.filter((s) => BOLT.has(s.role))
  const hit = deepest(
    bolts.flatMap((bolt) =>
      body.flatMap((other) => {
        const clash = clashOf(solidInSpace(bolt), solidInSpace(other))
        return clash ? [{ ...clash, role: bolt.role, what: other.lies ? 'web' : WALL[item.kind] }] : []
      }),
    ),
  )
  if (!hit) return []
  const message = `The ${hit.role} of a bolt of ${item.id} stands in its own ${hit.what}: ${fmt.length(hit.depth)} into it. Move the bolt away from there, or use another ${KIND_WORDS[item.kind]}.`
  return [finding('stop', 'hardware-clash', item.id, message, hit.at)]
}

const BOLT: ReadonlySet<MountedSolid['role']> = new Set(['stud', 'washer', 'nut'])
const WALL = { anglePlate: 'shelf', vee: 'block' } as const
