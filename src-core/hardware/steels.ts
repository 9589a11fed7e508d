/**
 * Steels that straps are made of and the stress they yield at. Each figure is the lower one, for thickness from 16 to
 * 40 mm (for normalised steel to 100 mm); thinner is stronger. All from memory: EN 10025-2, EN 10083-2, EN 10083-3.
 */
export interface StrapSteel {
  readonly name: string
  readonly aliases: readonly string[]
  /** N/mm² */
  readonly yieldsAt: number
}

export const STRAP_STEELS: readonly StrapSteel[] = [
  // S235JR; A36 has 250.
  { name: 'mild steel', aliases: ['S235', 'S235JR', 'A36', '1018', '1020'], yieldsAt: 225 },
  { name: 'S355', aliases: ['S355JR', 'S355J2'], yieldsAt: 345 },
  { name: 'medium carbon steel, normalised', aliases: ['C45', 'C45+N', 'EN8', '1045'], yieldsAt: 305 },
  { name: 'medium carbon steel, hardened and tempered', aliases: ['C45+QT', '1045 QT'], yieldsAt: 430 },
  { name: 'alloy steel, hardened and tempered', aliases: ['42CrMo4+QT', '4140 QT'], yieldsAt: 650 },
]

/** What a strap is taken for that says nothing of its steel: the weakest of them. */
export const WEAKEST_STEEL: StrapSteel = STRAP_STEELS.reduce((a, b) => (b.yieldsAt < a.yieldsAt ? b : a))

/** The steel of a name or alias, in any case; null for one that is not in the table. */
export function findStrapSteel(name: string): StrapSteel | null {
  const wanted = name.trim().toLowerCase()
  return STRAP_STEELS.find((s) => [s.name, ...s.aliases].some((n) => n.toLowerCase() === wanted)) ?? null
}

/** N/mm² that a strap yields at; a steel left out or not known counts as the weakest. */
export const strapYield = (name: string | null | undefined): number =>
  (findStrapSteel(name ?? '') ?? WEAKEST_STEEL).yieldsAt
