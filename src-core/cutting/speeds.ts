/**
 * Cutting speeds in m/min by material group, for high-speed steel; carbide by a multiple. Each range runs from the lowest
 * to the highest figure of the sources named beside it. Boring has no published table of its own: turning's is used, and
 * its lower half is the place to start (common practice, no source).
 *
 * Sources: `tutorial`, a table of nominal speeds; `navy`, a US Navy training manual for machinery repairmen; `usaf`, TO
 * 1-1A-9 table 2-8; `manual`, the table for high-speed steel in a machine maker's manual, itself after Machinery's
 * Handbook; `university`, a workshop's sheet of speeds (drills); `reference`, a tool dealer's table for 0.004 in feed and
 * 0.040 in depth; `textbook`, a table of drilling after hardness; `1914`, Jones, Turning and Boring; `memory`, not looked
 * up. Figures in ft/min are given to the nearest m/min.
 */
import type { CutKind } from '../job/schema.ts'
import type { MaterialGroup } from '../job/materials.ts'

export type SpeedRange = readonly [low: number, high: number]

interface Published {
  readonly range: SpeedRange
  readonly source: string
}

export interface SpeedEntry {
  readonly group: MaterialGroup
  /** HSS turning and boring. */
  readonly turning: Published
  /** HSS drilling; null: no published figure in the table. */
  readonly drilling: Published | null
  /** Carbide turning, where published apart. */
  readonly carbide: Published | null
}

const from = (source: string, low: number, high: number): Published => ({ range: [low, high], source })

/** Carbide turning as a multiple of HSS where no figure of its own is published (the tutorial). */
export const CARBIDE_MULTIPLE: SpeedRange = [3, 6]
/** Carbide drills as a multiple of high-speed steel (navy). */
export const CARBIDE_DRILL_MULTIPLE: SpeedRange = [2, 3]
/** Reaming as a share of drilling: a third to a half (a machine shop textbook). */
export const REAMING_SHARE: SpeedRange = [1 / 3, 1 / 2]

const row = (
  group: MaterialGroup,
  turning: Published,
  drilling: Published | null,
  carbide: Published | null = null,
): SpeedEntry => ({ group, turning, drilling, carbide })

export const CUTTING_SPEEDS: readonly SpeedEntry[] = [
  row('low-carbon steel', from('1914; tutorial', 13.7, 45), from('navy', 24, 34)),
  // 70 to 235 ft/min: 1132 to 1151, and 1108 to 1126.
  row('free-cutting steel', from('reference', 21, 72), from('navy, of mild steel', 24, 34)),
  // 55 to 90 ft/min: reference for 1027 to 1052, manual for mild steel.
  row('medium-carbon steel', from('reference; manual', 17, 27), from('navy', 21, 24)),
  // 40 to 70 ft/min: manual for hard alloy steel, the low end of the reference.
  row('alloy steel', from('manual; reference', 12, 21), from('navy', 15, 21)),
  // 70 to 80 ft/min.
  row('cast steel', from('university; manual', 21, 24), from('university', 15, 24)),
  // 50 to 80 ft/min: manual, and the reference's low end for air-hardening grades, annealed.
  row('tool steel', from('manual; reference', 15, 24), from('textbook, 196 to 241 HB', 15, 18)),
  row('stainless steel', from('tutorial', 9, 18), from('navy', 9, 12), from('usaf', 46, 91)),
  // 303 and 416: roughing from 25, finishing to 105 ft/min; with carbide 175 to 350.
  row(
    'free-cutting stainless steel',
    from('usaf', 8, 32),
    from('navy, of stainless', 9, 12),
    from('usaf', 53, 107),
  ),
  row('grey cast iron', from('1914; tutorial', 12.2, 30), from('navy', 21, 46)),
  row('nodular cast iron', from('memory', 15, 30), null),
  row('brass', from('tutorial; 1914', 45, 120), from('navy', 61, 91)),
  // Hard bronze 35 to 80 ft/min; tin and phosphor bronze wear a tool as brass never does.
  row('bronze', from('1914, hard bronze; memory', 11, 30), from('memory, as turning', 11, 30)),
  // 80 to 150 ft/min: the softest of the hard bronzes, and brass and bronze taken together.
  row('gunmetal', from('1914; manual', 24, 46), from('memory, as turning', 24, 46)),
  row('white metal', from('memory', 30, 60), null),
  row('copper', from('manual; university', 21, 30), from('university', 21, 21)),
  row('wrought aluminium', from('tutorial', 60, 150), from('navy', 61, 91)),
  row('cast aluminium', from('tutorial', 60, 150), from('navy', 61, 91)),
  row('titanium', from('university, drilling; manual', 9, 15), from('textbook, alloyed; university', 9, 12)),
]

const scaled = ([low, high]: SpeedRange, by: SpeedRange): SpeedRange => [low * by[0], high * by[1]]

interface Advised {
  readonly range: SpeedRange
  /** What the range rests on, in words. */
  readonly basis: string
}

/** Range of cutting speed for a kind of cut; null where the table has none. */
export function advisedSpeed(group: MaterialGroup, tool: 'HSS' | 'carbide', kind: CutKind): Advised | null {
  const entry = CUTTING_SPEEDS.find((e) => e.group === group)
  if (!entry) return null
  if (kind === 'drill' || kind === 'ream') {
    if (!entry.drilling) return null
    const hole = kind === 'ream' ? scaled(entry.drilling.range, REAMING_SHARE) : entry.drilling.range
    const words = kind === 'ream' ? 'a third to half of drilling figures' : 'drilling figures'
    return {
      range: tool === 'carbide' ? scaled(hole, CARBIDE_DRILL_MULTIPLE) : hole,
      basis: basisOf(words, entry.drilling, tool === 'carbide' ? CARBIDE_DRILL_MULTIPLE : null),
    }
  }
  if (tool === 'HSS')
    return { range: entry.turning.range, basis: basisOf('turning figures', entry.turning, null) }
  if (entry.carbide)
    return { range: entry.carbide.range, basis: basisOf('turning figures', entry.carbide, null) }
  return {
    range: scaled(entry.turning.range, CARBIDE_MULTIPLE),
    basis: basisOf('turning figures', entry.turning, CARBIDE_MULTIPLE),
  }
}

function basisOf(words: string, { source }: Published, times: SpeedRange | null): string {
  const memory = source.includes('memory') ? ', in part from memory' : ''
  return `${words}${times ? ` of high-speed steel times ${times[0]} to ${times[1]}` : ''}${memory}`
}
