/** A part that does not lie on its shelf: the size that would set it right. */
import { finding, type Finding } from '../findings/finding.ts'
import { shelfSize } from '../mounting/shelfSize.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { SEAT_PLAY } from './partFace.ts'

/** @param view from the shelf that the part is seated on, nothing of which carries it. */
export function offShelf(view: Mounted, { item }: NonNullable<Mounted['shelf']>): Finding {
  const fmt = formatter(view.job.displayUnits)
  const size = shelfSize(view)
  const say = (message: string) => finding('stop', 'part-off-shelf', item.id, message)
  if (!size || size.wanted === null) return say(`Nothing of the part lies on ${item.id}. Draw its bodies.`)
  const { stands, wanted } = size
  const off = stands - wanted
  if (Math.abs(off) > SEAT_PLAY) {
    const how = off > 0 ? `stands ${fmt.length(off)} off` : `reaches ${fmt.length(-off)} into`
    return say(
      `The part ${how} the shelf of ${item.id}. Set the shelf ${fmt.length(wanted)} from the axis; it stands at ${fmt.length(stands)}.`,
    )
  }
  return say(
    `The part does not lie flat on the shelf of ${item.id}: only an edge of it touches, or it hangs over the shelf's side. Turn the part or the angle plate until its base faces the shelf.`,
  )
}
