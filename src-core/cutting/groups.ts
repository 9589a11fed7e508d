/**
 * Specific cutting force by material group, as published: Kienzle curves k_c = k_c1.1·h^(−m_c) in N/mm², h the chip
 * thickness in mm, and rows of k_c by feed. Groups after ISO 513. Where sources or grades within a group disagree the
 * highest at the actual feed is used: for holding, more force is the careful side.
 */
import type { MaterialGroup } from '../job/materials.ts'

export interface ForceCurve {
  readonly kc11: number
  readonly mc: number
  readonly source: string
}

/** k_c in N/mm² at the feeds of `ROW_FEEDS`, as printed. */
export interface ForceRow {
  readonly grade: string
  readonly kc: readonly [number, number, number, number, number]
}

export interface CuttingGroup {
  readonly id: MaterialGroup
  readonly curves: readonly ForceCurve[]
  readonly rows?: readonly ForceRow[]
  readonly drillFactors: DrillFactors
}

/** The material's factors in two publishers' drilling formulas; null: not known. */
export interface DrillFactors {
  /** K_d of Machinery's Handbook (31st ed., p. 1152), N-mm form. */
  readonly handbook: number | null
  /** K of Tungaloy's formulas (general catalogue 2020–2021, p. L068): that of the hardest grade listed in the group. */
  readonly maker: number | null
}

/** mm/rev. Mitsubishi Materials, Formulae for Cutting Power, turning. */
export const ROW_FEEDS = [0.1, 0.2, 0.3, 0.4, 0.6] as const

const row = (grade: string, ...kc: ForceRow['kc']): ForceRow => ({ grade, kc })
/** VDI 3323 groups of a carbide maker's catalogue. */
const vdi = (group: string, kc11: number, mc: number): ForceCurve => ({
  kc11,
  mc,
  source: `ISCAR catalogue 2017, p. 558, ${group}`,
})
const later = (group: string, kc11: number, mc: number): ForceCurve => ({
  kc11,
  mc,
  source: `ISCAR catalogue 2022, p. 111, ${group}`,
})
const tables = (kc11: number, mc: number): ForceCurve => ({
  kc11,
  mc,
  source: 'Tabellenbuch Zerspantechnik, 5th ed. 2022, p. 215',
})

/** K_d of steel of 200 HB; from memory, as a published material card has it too. */
const STEEL_200_HB = 24_000
const UNKNOWN: DrillFactors = { handbook: null, maker: null }
const byMaker = (maker: number): DrillFactors => ({ handbook: null, maker })

export const CUTTING_GROUPS: readonly CuttingGroup[] = [
  {
    id: 'low-carbon steel',
    drillFactors: { handbook: STEEL_200_HB, maker: 2.22 },
    curves: [vdi('group 1', 1350, 0.21)],
    rows: [row('mild steel 520 MPa', 3610, 3100, 2720, 2500, 2280)],
  },
  {
    id: 'free-cutting steel',
    drillFactors: byMaker(1.42),
    curves: [vdi('group 1, which names free-cutting steel', 1350, 0.21)],
  },
  {
    id: 'cast steel',
    drillFactors: { handbook: STEEL_200_HB, maker: null },
    curves: [
      vdi('group 2, which names cast steel', 1500, 0.22),
      vdi('group 3, which names cast steel', 1675, 0.24),
      vdi('group 6, which names cast steel', 1775, 0.24),
    ],
  },
  {
    id: 'medium-carbon steel',
    drillFactors: { handbook: STEEL_200_HB, maker: 2.22 },
    curves: [vdi('group 2', 1500, 0.22), vdi('group 3', 1675, 0.24), vdi('group 4', 1700, 0.24)],
    rows: [
      row('mild steel 520 MPa', 3610, 3100, 2720, 2500, 2280),
      row('medium steel 620 MPa', 3080, 2700, 2570, 2450, 2300),
      row('hard steel 720 MPa', 4050, 3600, 3250, 2950, 2640),
    ],
  },
  {
    id: 'alloy steel',
    drillFactors: byMaker(2.41),
    curves: [vdi('group 6', 1775, 0.24), vdi('group 7', 1675, 0.24)],
    rows: [
      row('chrome-manganese steel 770 MPa', 3830, 3250, 2900, 2650, 2400),
      row('chrome-manganese steel 630 MPa', 4510, 3900, 3240, 2900, 2630),
      row('chrome-molybdenum steel 730 MPa', 4500, 3900, 3400, 3150, 2850),
      row('chrome-molybdenum steel 600 MPa', 3610, 3200, 2880, 2700, 2500),
      row('nickel-chrome-molybdenum steel 900 MPa', 3070, 2650, 2350, 2200, 1980),
      row('nickel-chrome-molybdenum steel 352 HB', 3310, 2900, 2580, 2400, 2200),
    ],
  },
  {
    id: 'tool steel',
    drillFactors: UNKNOWN,
    curves: [vdi('group 10', 2450, 0.23)],
    rows: [
      row('tool steel 670 MPa', 3040, 2800, 2630, 2500, 2400),
      row('tool steel 770 MPa', 3150, 2850, 2620, 2450, 2340),
    ],
  },
  { id: 'stainless steel', drillFactors: UNKNOWN, curves: [vdi('group 14', 2150, 0.2)] },
  {
    id: 'free-cutting stainless steel',
    drillFactors: UNKNOWN,
    curves: [vdi('groups 12 and 13', 1875, 0.21), vdi('group 14', 2150, 0.2)],
  },
  {
    id: 'grey cast iron',
    drillFactors: byMaker(1.88),
    curves: [vdi('group 15', 1150, 0.2), vdi('group 16', 1350, 0.28), tables(1050, 0.23)],
    rows: [
      row('grey cast iron 200 HB', 2110, 1800, 1600, 1400, 1330),
      row('Meehanite cast iron 360 MPa', 2300, 1930, 1730, 1600, 1450),
    ],
  },
  {
    id: 'nodular cast iron',
    drillFactors: UNKNOWN,
    curves: [vdi('group 17', 1225, 0.25), vdi('group 18', 1350, 0.28)],
  },
  {
    id: 'wrought aluminium',
    drillFactors: byMaker(1.01),
    curves: [vdi('group 21', 700, 0.25), vdi('group 22', 800, 0.25), tables(470, 0.27)],
  },
  {
    id: 'cast aluminium',
    drillFactors: byMaker(1.01),
    curves: [vdi('groups 23 and 24', 700, 0.25), vdi('group 25', 750, 0.25)],
  },
  { id: 'brass', drillFactors: UNKNOWN, curves: [vdi('groups 26 to 28', 700, 0.27)] },
  {
    id: 'bronze',
    drillFactors: UNKNOWN,
    curves: [
      vdi('groups 26 to 28', 700, 0.27),
      // The catalogue's groups are of free-cutting alloys; cast tin bronze cuts much harder.
      { kc11: 1780, mc: 0.17, source: 'German workshop tables, cast bronze, from memory' },
    ],
  },
  {
    id: 'gunmetal',
    drillFactors: UNKNOWN,
    curves: [
      vdi('groups 26 to 28', 700, 0.27),
      { kc11: 640, mc: 0.25, source: 'German workshop tables, red brass, from memory' },
    ],
  },
  // Far softer than any of the copper alloys: brass's force is the careful side of it.
  { id: 'white metal', drillFactors: UNKNOWN, curves: [vdi('groups 26 to 28', 700, 0.27)] },
  { id: 'copper', drillFactors: UNKNOWN, curves: [vdi('groups 26 to 28', 700, 0.27)] },
  {
    id: 'titanium',
    drillFactors: UNKNOWN,
    curves: [
      vdi('group 36', 1700, 0.23),
      vdi('group 37', 2110, 0.22),
      later('group 36', 1160, 0.24),
      later('group 37', 1245, 0.24),
    ],
  },
]

export const findGroup = (id: MaterialGroup | null): CuttingGroup | null =>
  CUTTING_GROUPS.find((g) => g.id === id) ?? null

/** k_c of a row between and beyond its feeds: straight in logarithms, as Kienzle's law is. */
function rowForce({ kc }: ForceRow, chipThickness: number): number {
  const above = ROW_FEEDS.findIndex((f) => f >= chipThickness)
  const hi = above === -1 ? ROW_FEEDS.length - 1 : Math.max(1, above)
  const [f0, f1] = [ROW_FEEDS[hi - 1]!, ROW_FEEDS[hi]!]
  const [k0, k1] = [kc[hi - 1]!, kc[hi]!]
  return k0 * (k1 / k0) ** (Math.log(chipThickness / f0) / Math.log(f1 / f0))
}

/** mm: below this a tool rubs and no force law holds; it keeps k_c finite whatever feed a file gives. */
const LEAST_CHIP = 1e-6

/** N/mm² at a chip thickness in mm: the highest of the group's curves and rows. */
export function specificCuttingForce(group: CuttingGroup, chipThickness: number): number {
  const chip = Math.max(chipThickness, LEAST_CHIP)
  return Math.max(
    ...group.curves.map((c) => c.kc11 * chip ** -c.mc),
    ...(group.rows ?? []).map((r) => rowForce(r, chip)),
  )
}
