/** Whether the lip of a tee slot carries the bolt's head. */
import { called, finding } from '../findings/finding.ts'
import type { Slot } from '../job/schema.ts'
import { anchorUnder } from '../mounting/fixtures.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import type { Ruling } from './ruling.ts'

/** Of a slot's neck: lip and foot where they are not given. Careful side of usual tee slots; from memory. */
const USUAL = { lip: 0.5, foot: 1.6 } as const
/**
 * N/mm²: half of what the weakest usual iron of plates breaks at in tension, 150, and that itself. Own choice. Iron is
 * about as strong in shear as in tension, so that one pair of limits serves both.
 */
const LIMITS = { caution: 75, stop: 150 } as const

/**
 * N/mm²: the greater of bending and shear of the two lips under a head that pulls on them. Each lip is a cantilever as
 * long as it stands out, half the load at half its length; as wide as a square head of the foot's width, and a lip's
 * thickness more to either side, for the load spreads.
 */
export function lipStress(pull: number, neck: number, foot: number, lip: number): number {
  const out = Math.max(0, (foot - neck) / 2)
  const wide = foot + 2 * lip
  const bending = ((pull / 2) * (out / 2) * 6) / (wide * lip ** 2)
  const shear = pull / 2 / (wide * lip)
  return Math.max(bending, shear)
}

/** @param pull N at the high side of the preload. */
export function lipRulings(
  mounted: Mounted,
  { item, at: station }: MountedPiece,
  at = station,
  pull = 0,
): Ruling[] {
  const { plate, displayUnits } = mounted.job
  const anchor = anchorUnder(mounted, item.id, at)
  const slot = anchor?.kind === 'slot' ? plate.slots.find((s) => s.id === anchor.id) : undefined
  if (slot?.kind !== 'tee' || pull <= 0) return []
  const { stress, given } = stressIn(slot, pull)
  const fmt = formatter(displayUnits)
  const lip = `the lip of slot ${slot.id}`
  const figures = `${fmt.force(pull)} on ${given ? '' : 'what is taken for '}a lip of ${fmt.length(lipOf(slot))} gives ${fmt.stress(stress)}; the weakest iron breaks at ${fmt.stress(LIMITS.stop)}`
  if (stress > LIMITS.caution && !given) {
    const message = `Whether ${lip} carries the bolt of ${called(item)} is not known: its thickness is not given. Measure it and give it with the slot, or tighten less; ${figures}.`
    return [{ finding: finding('caution', 'lip-not-judged', item.id, message, at), makes: 'unknown' }]
  }
  if (stress > LIMITS.stop) {
    const message = `The bolt of ${called(item)} breaks ${lip}. Tighten it less, or bolt through a slot that goes through; ${figures}.`
    return [{ finding: finding('stop', 'lip-breaks', item.id, message, at), makes: 'nothing' }]
  }
  if (stress > LIMITS.caution) {
    const message = `The bolt of ${called(item)} strains ${lip}. Tighten it less if you can; ${figures}.`
    return [{ finding: finding('caution', 'lip-strained', item.id, message, at), makes: null }]
  }
  return []
}

const lipOf = (slot: Slot): number => slot.lip ?? USUAL.lip * slot.width

function stressIn(slot: Slot, pull: number): { stress: number; given: boolean } {
  const given = Boolean(slot.lip)
  const foot = Math.max(slot.width, slot.teeWidth ?? USUAL.foot * slot.width)
  return { stress: lipStress(pull, slot.width, foot, lipOf(slot)), given }
}
