/** Strap clamps that fit a plate, to choose four of: the shop's own first, then usual ones. */
import { findThread } from '../../../src-core/hardware/threads.ts'
import { USUAL_STRAPS } from '../../../src-core/hardware/straps.ts'
import { usualClamp, usualStrapFor, type ClampPattern } from '../../../src-core/hardware/usualClamp.ts'
import type { Plate } from '../../../src-core/job/schema.ts'
import type { Library } from '../../../src-core/shop/schema.ts'
import type { Formatter } from '../../../src-core/units/format.ts'
import { without } from './edit.ts'

export interface StrapOffer {
  readonly id: string
  readonly label: string
  readonly pattern: ClampPattern
}

/** `packed`: the part stands off the plate. The likeliest stands first; empty where the plate has no slots. */
export function strapOffers(
  plate: Plate,
  hardware: Library['hardware'],
  fmt: Formatter,
  packed: boolean,
): readonly StrapOffer[] {
  if (plate.slots.length === 0) return []
  const narrowest = Math.min(...plate.slots.map((s) => s.width))
  const own = hardware.flatMap(({ id, name, value }): StrapOffer[] => {
    if (value.kind !== 'clamp') return []
    const thread = value.stud.thread ?? ''
    if ((findThread(thread)?.diameter ?? 0) > narrowest) return []
    const usual = usualClamp(value.strap, thread, packed)
    const pattern = { ...usual, ...without(value, 'packing'), name, heel: value.heel ?? usual.heel }
    return [{ id: `shop ${id}`, label: name, pattern }]
  })
  const standard = fmt.units === 'mm' ? 'metric' : 'unified'
  const first = usualStrapFor(plate, fmt.units)
  const usual = USUAL_STRAPS.flatMap((strap, i): StrapOffer[] => {
    const thread = findThread(strap.thread)
    if (thread?.standard !== standard || thread.diameter > narrowest) return []
    const label = `${strap.thread} straps, ${fmt.length(strap.length)} long`
    return [{ id: `usual ${i}`, label, pattern: usualClamp(strap, strap.thread, packed) }]
  })
  const likeliest = (o: StrapOffer) => (o.id === `usual ${first}` ? 0 : 1)
  return [...own, ...usual.sort((a, b) => likeliest(a) - likeliest(b))]
}
