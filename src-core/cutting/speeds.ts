/**
 * Cutting speeds in m/min by material group, for high-speed steel; carbide by a multiple. Turning ranges from a tutorial
 * table of nominal speeds, drilling ranges from a US Navy training manual for machinery repairmen (80–110 ft/min and so on).
 * Boring has no published table of its own; the turning range is used and its lower half is the place to start (common
 * practice, no source).
 */
import type { MaterialGroup } from '../job/materials.ts'

export type SpeedRange = readonly [low: number, high: number]

export interface SpeedEntry {
  readonly group: MaterialGroup
  /** HSS turning and boring; null: no published figure in the table. */
  readonly turning: SpeedRange | null
  /** HSS drilling. */
  readonly drilling: SpeedRange | null
  /** Carbide turning, where published apart. */
  readonly carbide: SpeedRange | null
}

/** Carbide turning as a multiple of HSS where no figure of its own is published (same tutorial table). */
export const CARBIDE_MULTIPLE: SpeedRange = [3, 6]

export const CUTTING_SPEEDS: readonly SpeedEntry[] = [
  { group: 'low-carbon steel', turning: [25, 45], drilling: [24, 34], carbide: null },
  { group: 'medium-carbon steel', turning: null, drilling: [21, 24], carbide: null },
  { group: 'alloy steel', turning: null, drilling: [15, 21], carbide: null },
  { group: 'stainless steel', turning: [9, 18], drilling: [9, 12], carbide: [46, 91] },
  { group: 'grey cast iron', turning: [22, 30], drilling: [21, 46], carbide: null },
  { group: 'brass', turning: [45, 120], drilling: [61, 91], carbide: null },
  { group: 'bronze', turning: null, drilling: [61, 91], carbide: null },
  { group: 'wrought aluminium', turning: [60, 150], drilling: [61, 91], carbide: null },
  { group: 'cast aluminium', turning: [60, 150], drilling: [61, 91], carbide: null },
]

/**
 * Older figures for turning (Jones, Turning and Boring, 1914; carbon and early high-speed steel), m/min from ft/min:
 * the careful lower end that suits an interrupted cut on a faceplate.
 */
export const HISTORICAL_TURNING: readonly { readonly group: MaterialGroup; readonly range: SpeedRange }[] = [
  { group: 'low-carbon steel', range: [13.7, 19.8] },
  { group: 'grey cast iron', range: [12.2, 15.2] },
  { group: 'tool steel', range: [7.6, 10.7] },
  { group: 'brass', range: [45.7, 61] },
  { group: 'bronze', range: [10.7, 24.4] },
]

/** Carbide drills as a multiple of high-speed steel (the training manual). */
export const CARBIDE_DRILL_MULTIPLE: SpeedRange = [2, 3]

/**
 * Range from the careful old figure to the modern one, m/min; null where the table has none. Where no turning figure is
 * published the drilling one stands in, and `speedBasis` says so.
 */
export function advisedSpeed(group: MaterialGroup, tool: 'HSS' | 'carbide'): SpeedRange | null {
  const entry = CUTTING_SPEEDS.find((e) => e.group === group)
  const turning = entry?.turning ?? null
  const modern = turning ?? entry?.drilling ?? null
  if (tool === 'carbide') {
    if (entry?.carbide) return entry.carbide
    const times = turning ? CARBIDE_MULTIPLE : CARBIDE_DRILL_MULTIPLE
    return modern && [modern[0] * times[0], modern[1] * times[1]]
  }
  const old = HISTORICAL_TURNING.find((h) => h.group === group)?.range ?? null
  if (!modern) return old
  return old ? [Math.min(old[0], modern[0]), modern[1]] : modern
}

/** What the advised range rests on, in words. */
export function speedBasis(group: MaterialGroup): string {
  const entry = CUTTING_SPEEDS.find((e) => e.group === group)
  if (entry?.turning) return 'turning figures'
  return entry?.drilling ? 'drilling figures, as none for turning are published' : 'turning figures of 1914'
}
