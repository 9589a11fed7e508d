/** Materials: density and what cuts like them. Castings vary by several per cent: weigh the part where it matters. */

/** Groups that share a specific cutting force. */
export type MaterialGroup =
  | 'low-carbon steel'
  | 'free-cutting steel'
  | 'cast steel'
  | 'medium-carbon steel'
  | 'alloy steel'
  | 'tool steel'
  | 'stainless steel'
  | 'free-cutting stainless steel'
  | 'grey cast iron'
  | 'nodular cast iron'
  | 'wrought aluminium'
  | 'cast aluminium'
  | 'brass'
  | 'bronze'
  | 'gunmetal'
  | 'white metal'
  | 'copper'
  | 'titanium'

export interface Material {
  readonly name: string
  readonly aliases: readonly string[]
  /** kg/m³ */
  readonly density: number
  /** Null: no cutting force in the tables. */
  readonly group: MaterialGroup | null
  readonly source: string
}

/** kg/m³ between which whatever is solid lies: wood and plastics below, tungsten above. Common knowledge. */
export const SOLID_DENSITY = { least: 400, most: 19_500 } as const

const GERE = 'Gere, Mechanics of Materials, 5th ed., table of densities'
const METALS = 'published table of metals and alloys'
const DATASHEET = 'material data sheet'
const MEMORY = 'from memory, not looked up'

export const MATERIALS: readonly Material[] = [
  {
    name: 'mild steel',
    aliases: [
      'steel',
      'carbon steel',
      'low carbon steel',
      'structural steel',
      'S235',
      'S275',
      'S355',
      '1018',
      '1020',
      'A36',
      'CDS',
      'CRS',
    ],
    density: 7850,
    group: 'low-carbon steel',
    source: GERE,
  },
  {
    name: 'free-cutting steel',
    aliases: [
      'free cutting mild steel',
      'EN1A',
      'EN1A leaded',
      '11SMn30',
      '11SMnPb30',
      '12L14',
      '1215',
      '230M07',
    ],
    density: 7850,
    group: 'free-cutting steel',
    source: GERE,
  },
  {
    name: 'cast steel',
    aliases: ['steel casting', 'carbon steel casting', 'GS-45', 'GE240', 'A1'],
    density: 7850,
    group: 'cast steel',
    source: `${GERE} (carbon steel)`,
  },
  {
    name: 'medium carbon steel',
    aliases: ['C45', 'EN8', '1045', '1040'],
    density: 7850,
    group: 'medium-carbon steel',
    source: GERE,
  },
  {
    name: 'alloy steel',
    aliases: ['4140', '42CrMo4', 'EN19', 'EN24', '4340'],
    density: 7850,
    group: 'alloy steel',
    source: GERE,
  },
  {
    name: 'tool steel',
    aliases: ['O1', 'D2', 'silver steel', 'gauge plate'],
    density: 7850,
    group: 'tool steel',
    source: `${GERE} (carbon steel)`,
  },
  {
    name: 'stainless steel',
    aliases: ['stainless', '304', 'stainless 304', '304 stainless', '316', 'austenitic stainless steel'],
    density: 7930,
    group: 'stainless steel',
    source: MEMORY,
  },
  {
    name: 'free-cutting stainless steel',
    aliases: ['303', '416', '1.4305', 'stainless 303'],
    density: 7930,
    group: 'free-cutting stainless steel',
    source: MEMORY,
  },
  {
    name: 'grey cast iron',
    aliases: ['gray cast iron', 'cast iron', 'grey iron', 'gray iron', 'GJL', 'EN-GJL-250', 'GG25', 'CI'],
    density: 7200,
    group: 'grey cast iron',
    source: `${DATASHEET} of EN-GJL-250; ${GERE} 7000–7400`,
  },
  {
    name: 'nodular cast iron',
    aliases: [
      'ductile iron',
      'ductile cast iron',
      'spheroidal graphite iron',
      'SG iron',
      'EN-GJS-500-7',
      'GGG50',
    ],
    density: 7200,
    group: 'nodular cast iron',
    source: `${DATASHEET} of EN-GJS-500-7`,
  },
  {
    name: 'aluminium',
    aliases: [
      'aluminum',
      '6061',
      'aluminium 6061',
      'aluminum 6061',
      '6061 aluminium',
      '6061 aluminum',
      '6061-T6',
      '6082',
      'aluminium alloy',
      'wrought aluminium',
    ],
    density: 2700,
    group: 'wrought aluminium',
    source: GERE,
  },
  {
    name: 'cast aluminium',
    aliases: ['cast aluminum', 'aluminium casting', 'A356', 'A360', 'LM25'],
    density: 2680,
    group: 'cast aluminium',
    source: MEMORY,
  },
  {
    name: 'brass',
    aliases: ['CZ121', 'CW614N', 'free cutting brass', 'C36000'],
    density: 8520,
    group: 'brass',
    source: METALS,
  },
  {
    name: 'bronze',
    aliases: ['phosphor bronze', 'PB1', 'tin bronze'],
    density: 8800,
    group: 'bronze',
    source: METALS,
  },
  {
    name: 'gunmetal',
    aliases: ['LG2', 'leaded gunmetal', 'red brass', 'C83600', 'CC491K', 'Rg5'],
    density: 8750,
    group: 'gunmetal',
    source: MEMORY,
  },
  {
    name: 'aluminium bronze',
    aliases: ['aluminum bronze', 'AB2', 'CC333G'],
    density: 7600,
    group: 'bronze',
    source: MEMORY,
  },
  {
    name: 'white metal',
    aliases: ['babbitt', 'bearing metal', 'tin-base white metal'],
    density: 7380,
    group: 'white metal',
    source: `${MEMORY}; of tin base, of lead base nearer 10,000`,
  },
  {
    name: 'copper',
    aliases: ['C101', 'C110', 'electrolytic copper'],
    density: 8930,
    group: 'copper',
    source: METALS,
  },
  {
    name: 'titanium',
    aliases: ['commercially pure titanium'],
    density: 4500,
    group: 'titanium',
    source: GERE,
  },
  {
    name: 'titanium alloy',
    aliases: ['Ti-6Al-4V', 'Ti64', 'grade 5 titanium'],
    density: 4430,
    group: 'titanium',
    source: MEMORY,
  },
  {
    name: 'magnesium',
    aliases: ['magnesium alloy'],
    density: 1800,
    group: null,
    source: `${METALS} (alloys 1760–1870)`,
  },
  { name: 'zinc', aliases: [], density: 7135, group: null, source: METALS },
  {
    name: 'zinc alloy',
    aliases: ['zamak', 'zamak 3', 'mazak'],
    density: 6600,
    group: null,
    source: 'die-casting data sheet',
  },
  { name: 'lead', aliases: [], density: 11_340, group: null, source: METALS },
  {
    name: 'tungsten alloy',
    aliases: ['heavy alloy', 'ASTM B777 class 1'],
    density: 17_000,
    group: null,
    source: `ASTM B777 class 1, ${MEMORY}`,
  },
  { name: 'acetal', aliases: ['POM'], density: 1410, group: null, source: 'published table of plastics' },
  {
    name: 'nylon',
    aliases: ['PA6', 'cast nylon', 'polyamide'],
    density: 1160,
    group: null,
    source: 'published table of plastics',
  },
  { name: 'PTFE', aliases: [], density: 2190, group: null, source: 'published table of plastics' },
  { name: 'oak', aliases: [], density: 680, group: null, source: GERE },
  { name: 'plywood', aliases: ['birch plywood'], density: 680, group: null, source: MEMORY },
]

const normal = (text: string) => text.toLowerCase().replace(/[^a-z0-9]+/g, '')

/** The material that a name means, forgiving case, spaces and punctuation; null where the table has none. */
export function findMaterial(name: string): Material | null {
  const wanted = normal(name)
  if (!wanted) return null
  return MATERIALS.find((m) => [m.name, ...m.aliases].some((n) => normal(n) === wanted)) ?? null
}
