/** A part that does not lie on its shelf: the size that would set it right. */
import { finding, type Finding } from '../findings/finding.ts'
import { missesShelf, shelfSize } from '../mounting/shelfSize.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'

/** Of what is said of a shelf as a whole, in its frame: where it meets the plate. */
const PLACE = { x: 0, y: 0 }

/** @param view from the shelf that the part is seated on, on which it does not lie. */
export function offShelf(view: Mounted, { item }: NonNullable<Mounted['shelf']>): Finding {
  const fmt = formatter(view.job.displayUnits)
  const size = shelfSize(view)
  const say = (message: string) => finding('stop', 'part-off-shelf', item.id, message, PLACE)
  if (!size || size.wanted === null) return say(`Nothing of the part lies on ${item.id}. Draw its bodies.`)
  const off = missesShelf(view)
  const on = view.setup.packing > 0 ? `the packing on the shelf of ${item.id}` : `the shelf of ${item.id}`
  if (off !== null && view.shelf?.slanted.length === 0) {
    const how = off > 0 ? `stands ${fmt.size(off)} off` : `reaches ${fmt.size(-off)} into`
    return say(
      `The part ${how} ${on}. Set the shelf ${fmt.size(size.wanted)} from the axis; it stands at ${fmt.size(size.stands)}.`,
    )
  }
  return say(
    `The part does not lie flat on ${on}: only an edge of it touches, or it hangs over the shelf's side. Turn the part or the angle plate until its base faces the shelf.`,
  )
}
