/** What can be said of a clamp of which only a box and its typed levers are known: that it cannot press. */
import { called, finding } from '../findings/finding.ts'
import type { Point } from '../geometry/types.ts'
import { discPolygons, restOn } from '../mounting/material.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { bareOf, whatLiesAt } from './bearing.ts'
import type { Ruling } from './ruling.ts'

/** mm across: how closely a nose's point is looked at. Own choice. */
const SPOT = 2
/** mm that a clamp's drawn underside may stand off the work and still be taken to touch it. Own choice. */
const HANGS = 2

/** @param nose plate frame. */
export function pressRulings(mounted: Mounted, { item, z0 }: MountedPiece, nose: Point): Ruling[] {
  const fmt = formatter(mounted.job.displayUnits)
  const name = called(item)
  const off = (message: string): Ruling[] => [
    { finding: finding('stop', 'press-off', item.id, message, nose), makes: 'nothing' },
  ]
  const radius = Math.hypot(nose.x, nose.y)
  if (radius > mounted.job.plate.diameter / 2)
    return off(`${name} presses beyond the plate. Move it in; its nose is at radius ${fmt.length(radius)}.`)
  const spot = discPolygons(nose, SPOT)
  const rest = restOn(mounted, spot)
  if (!rest || bareOf(mounted, spot, rest.z).length > 0) {
    const lies = whatLiesAt(mounted, nose, rest?.z ?? mounted.partFront)
    return off(`${name} does not press on the part: under its nose is ${lies}. Move it onto solid material.`)
  }
  if (z0 - rest.z <= HANGS) return []
  return off(
    `${name} hangs ${fmt.length(z0 - rest.z)} above the part. Lower it; the part is ${fmt.length(rest.z)} from the plate there, the clamp ${fmt.length(z0)}.`,
  )
}
