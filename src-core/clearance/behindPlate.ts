/** Stud tails and bolt heads behind the plate, against headstock and guard. */
import { finding, called, type Finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { acrossCorners, nutSize } from '../hardware/nuts.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'

/** mm free behind a plate of which nothing is given: less than most lathes leave. Evenswing's own choice. */
export const USUAL_ROOM = 25

interface Tail {
  readonly item: string
  readonly label: string
  readonly at: Point
  /** mm behind the plate's back, and from the axis to its outermost corner. */
  readonly depth: number
  readonly radius: number
}

/** What stands out behind the plate's back. */
export function tailsBehind(mounted: Mounted): Tail[] {
  const { thickness } = mounted.job.plate
  // Studs of a shelf end behind that, in front of the plate.
  return mounted.pieces.flatMap(({ item, shelf, fastenings }) =>
    (shelf ? [] : fastenings).flatMap(({ at, back, thread }): Tail[] => {
      const depth = -back - thickness
      if (depth <= TOLERANCE.height) return []
      const nut = thread && nutSize(thread)
      const half = (nut ? acrossCorners(nut) : (thread?.diameter ?? 0)) / 2
      return [{ item: item.id, label: called(item), at, depth, radius: Math.hypot(at.x, at.y) + half }]
    }),
  )
}

export function behindFindings(mounted: Mounted): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const room = mounted.job.lathe.behindPlate
  const tails = tailsBehind(mounted)
  if (!room) {
    const deep = tails.filter((t) => t.depth > USUAL_ROOM)
    const worst = deep.reduce<Tail | null>((a, b) => (a && a.depth >= b.depth ? a : b), null)
    if (!worst) return []
    const others = deep.length > 1 ? ` and ${deep.length - 1} more` : ''
    const message = `The room behind the plate is not known for this lathe. The stud of ${worst.label}${others} stands ${fmt.length(worst.depth)} out behind it; up to ${fmt.length(USUAL_ROOM)} is let pass, a choice of Evenswing's own. Measure from the plate's back to headstock or guard.`
    return [finding('caution', 'behind-not-checked', 'lathe', message, worst.at)]
  }
  return tails.flatMap(({ item, label, at, depth, radius }) => {
    const short = depth - room.depth
    if (short > 0) {
      const message = `${capital(`the stud of ${label}`)} meets the headstock behind the plate: it stands ${fmt.length(depth)} out, and ${fmt.length(room.depth)} is free. Use a shorter one, or a bolt with its head behind.`
      return [finding('stop', 'fouls-behind', item, message, at)]
    }
    const guard = room.radius ?? Infinity
    if (radius <= guard) return []
    const message = `${capital(`the stud of ${label}`)} meets the guard behind the plate: its corner sweeps ${fmt.length(radius)}, and ${fmt.length(guard)} is free. Move it inward.`
    return [finding('stop', 'fouls-behind', item, message, at)]
  })
}
