/**
 * Specific cutting force by material group: k_c = k_c1.1·h^(−m_c) in N/mm², h the chip thickness in mm (Kienzle).
 * Groups after ISO 513; first curve of each from a carbide maker's table of VDI 3323 groups (2017, 2022), further ones
 * from other published tables. Where they disagree the highest at the actual feed is used: for holding, more force is
 * the careful side.
 */
export type GroupId =
  | 'low-carbon steel'
  | 'medium-carbon steel'
  | 'alloy steel'
  | 'tool steel'
  | 'stainless steel'
  | 'grey cast iron'
  | 'nodular cast iron'
  | 'wrought aluminium'
  | 'cast aluminium'
  | 'brass'
  | 'bronze'
  | 'copper'
  | 'titanium'

export interface ForceCurve {
  readonly kc11: number
  readonly mc: number
  readonly source: string
}

export interface CuttingGroup {
  readonly id: GroupId
  readonly curves: readonly ForceCurve[]
  /** Material factor K_d of the drilling formulas of Machinery's Handbook (31st ed., p. 1152), N-mm form; null: not known. */
  readonly drillFactor: number | null
}

const VDI = "carbide maker's table of VDI 3323 groups"
const FEED_TABLE = "carbide maker's table of k_c by feed, fitted"

export const CUTTING_GROUPS: readonly CuttingGroup[] = [
  {
    id: 'low-carbon steel',
    drillFactor: 24_000,
    curves: [
      { kc11: 1350, mc: 0.21, source: VDI },
      { kc11: 1988, mc: 0.263, source: FEED_TABLE },
    ],
  },
  {
    id: 'medium-carbon steel',
    drillFactor: 24_000,
    curves: [
      { kc11: 1675, mc: 0.24, source: VDI },
      { kc11: 1988, mc: 0.263, source: FEED_TABLE },
    ],
  },
  { id: 'alloy steel', drillFactor: null, curves: [{ kc11: 1775, mc: 0.24, source: VDI }] },
  { id: 'tool steel', drillFactor: null, curves: [{ kc11: 2450, mc: 0.23, source: VDI }] },
  { id: 'stainless steel', drillFactor: null, curves: [{ kc11: 2150, mc: 0.2, source: VDI }] },
  {
    id: 'grey cast iron',
    drillFactor: null,
    curves: [
      { kc11: 1350, mc: 0.28, source: VDI },
      { kc11: 1139, mc: 0.271, source: FEED_TABLE },
      { kc11: 1050, mc: 0.23, source: 'Tabellenbuch Zerspantechnik, 5th ed. 2022, p. 215' },
    ],
  },
  { id: 'nodular cast iron', drillFactor: null, curves: [{ kc11: 1350, mc: 0.28, source: VDI }] },
  {
    id: 'wrought aluminium',
    drillFactor: null,
    curves: [
      { kc11: 800, mc: 0.25, source: VDI },
      { kc11: 470, mc: 0.27, source: 'Tabellenbuch Zerspantechnik, 5th ed. 2022, p. 215' },
    ],
  },
  { id: 'cast aluminium', drillFactor: null, curves: [{ kc11: 750, mc: 0.25, source: VDI }] },
  { id: 'brass', drillFactor: null, curves: [{ kc11: 700, mc: 0.27, source: VDI }] },
  { id: 'bronze', drillFactor: null, curves: [{ kc11: 700, mc: 0.27, source: VDI }] },
  { id: 'copper', drillFactor: null, curves: [{ kc11: 700, mc: 0.27, source: VDI }] },
  {
    id: 'titanium',
    drillFactor: null,
    curves: [{ kc11: 2110, mc: 0.22, source: `${VDI}, 2017; the 2022 edition prints 1245 and 0.24` }],
  },
]

export const findGroup = (id: GroupId | null): CuttingGroup | null =>
  CUTTING_GROUPS.find((g) => g.id === id) ?? null

/** N/mm² at a chip thickness in mm: the highest of the group's curves. */
export function specificCuttingForce(group: CuttingGroup, chipThickness: number): number {
  return Math.max(...group.curves.map((c) => c.kc11 * chipThickness ** -c.mc))
}
