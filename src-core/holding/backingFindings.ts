/** What each stop and pin bears of the part, or why it holds nothing. */
import { called, finding, type Finding } from '../findings/finding.ts'
import { directionOf } from '../geometry/angles.ts'
import { turnedBy } from '../geometry/space/pose.ts'
import type { Mounted } from '../mounting/types.ts'
import { clockPosition, formatter } from '../units/format.ts'
import type { Backing } from './backing.ts'
import type { Judged } from './judged.ts'

export function backingFindings({ job, setup }: Mounted, { backed }: Judged): Finding[] {
  const fmt = formatter(job.displayUnits)
  return backed.map(({ piece: { item, at }, backing, idle, bears }) => {
    const name = `${item.kind === 'dowel' ? 'Dowel' : 'Stop'} ${called(item)}`
    if (idle)
      return finding(
        'note',
        'stop-not-counted',
        item.id,
        `${name} ${idle.why}: it holds nothing. ${idle.cure}.`,
        at,
      )
    if (!(bears > 0)) {
      const message = `${name} holds nothing: it does not bear twice its own loads. Tighten it, or run slower.`
      return finding('note', 'stop-not-counted', item.id, message, at)
    }
    const way = backing ? wayOf(backing) : ''
    const speed = setup.speed === null ? 'standing still' : `at ${fmt.speed(setup.speed)}`
    const message = `${name} keeps the part from sliding ${way}: it bears up to ${fmt.force(bears)} ${speed}, by its own ${item.kind === 'dowel' ? 'strength' : 'joint'}.`
    return finding('note', 'stop-bears', item.id, message, at)
  })
}

/** Of a push along the spindle there is no o'clock. */
const ALONG_SPINDLE = 0.7

function wayOf({ pose, contact: { into } }: Backing): string {
  if (!into) return 'whichever way'
  const way = turnedBy(pose, { ...into, z: 0 })
  if (Math.abs(way.z) > ALONG_SPINDLE) return way.z > 0 ? 'out from the plate' : 'towards the plate'
  return `towards ${clockPosition(directionOf(way))}`
}
