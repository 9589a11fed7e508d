/**
 * Threads and the proof loads of their strength classes.
 *
 * Metric: pitch ISO 261, stress areas as published in ISO 898-1 (M5 and M27 to M36 from memory, held against the
 * formula). Proof loads of 4.6, 8.8, 10.9 and 12.9 from M6 to M24 as published there, rounded to three figures; all
 * others are proof stress × stress area. Inch: areas ASME B1.1 (fine threads to 1 in and coarse ones above 1-1/8 in from
 * memory, held against the formula), proof load = area × stress. Whitworth: threads an inch of BS 84 from memory; the area is that of the core, less than what a
 * test would find, and the strength is that of the bar, by class or grade.
 */
import { discArea } from '../geometry/discArea.ts'
import { convert } from '../units/convert.ts'
import { METRIC_CLASSES, proofLoads, UNIFIED_GRADES, WHITWORTH_CLASSES } from './classes.ts'

export type ThreadStandard = 'metric' | 'unified' | 'whitworth'

export interface Thread {
  readonly name: string
  readonly standard: ThreadStandard
  /** Nominal diameter, mm. */
  readonly diameter: number
  /** Pitch, mm. */
  readonly pitch: number
  /** Tensile stress area as published, mm². */
  readonly stressArea: number
  /** Proof load in N by class or grade. */
  readonly proof: Readonly<Record<string, number>>
}

const IN = convert(1, 'in', 'mm')

/** `published`: proof loads of 4.6, 8.8, 10.9 and 12.9. Those of other classes are worked out. */
function metricRow(d: number, pitch: number, area: number, ...published: number[]): Thread {
  const [p46, p88, p109, p129] = published
  const computed = proofLoads(METRIC_CLASSES, d, area)
  const printed = published.length > 0 ? { '4.6': p46!, '8.8': p88!, '10.9': p109!, '12.9': p129! } : {}
  // The printed loads take the places of the computed ones, in order of strength.
  return {
    name: `M${d}`,
    standard: 'metric',
    diameter: d,
    pitch,
    stressArea: area,
    proof: { ...computed, ...printed },
  }
}

const unifiedRow = (name: string, tpi: number, areaIn2: number): Thread => ({
  name: `${name}-${tpi}`,
  standard: 'unified',
  diameter: inchesOf(name) * IN,
  pitch: IN / tpi,
  stressArea: areaIn2 * IN * IN,
  proof: proofLoads(UNIFIED_GRADES, inchesOf(name) * IN, areaIn2 * IN * IN),
})

/** `3/4` and `1-1/8` as numbers. */
function inchesOf(name: string): number {
  return name.split('-').reduce((sum, text) => {
    const [above, below = '1'] = text.split('/')
    return sum + Number(above) / Number(below)
  }, 0)
}

function whitworthRow(series: 'BSW' | 'BSF', name: string, tpi: number): Thread {
  const diameter = inchesOf(name) * IN
  const shape = { standard: 'whitworth', diameter, pitch: IN / tpi } as const
  const stressArea = discArea(rootDiameter(shape))
  return {
    ...shape,
    name: `${name} ${series}`,
    stressArea,
    proof: proofLoads(WHITWORTH_CLASSES, diameter, stressArea),
  }
}

export const THREADS: readonly Thread[] = [
  metricRow(5, 0.8, 14.2),
  metricRow(6, 1, 20.1, 4520, 11_600, 16_700, 19_500),
  metricRow(8, 1.25, 36.6, 8240, 21_200, 30_400, 35_500),
  metricRow(10, 1.5, 58.0, 13_000, 33_700, 48_100, 56_300),
  metricRow(12, 1.75, 84.3, 19_000, 48_900, 70_000, 81_800),
  metricRow(14, 2, 115, 25_900, 66_700, 95_500, 112_000),
  metricRow(16, 2, 157, 35_300, 91_000, 130_000, 152_000),
  metricRow(18, 2.5, 192, 43_200, 115_000, 159_000, 186_000),
  metricRow(20, 2.5, 245, 55_100, 147_000, 203_000, 238_000),
  metricRow(22, 2.5, 303, 68_200, 182_000, 252_000, 294_000),
  metricRow(24, 3, 353, 79_400, 212_000, 293_000, 342_000),
  metricRow(27, 3, 459),
  metricRow(30, 3.5, 561),
  metricRow(33, 3.5, 694),
  metricRow(36, 4, 817),
  unifiedRow('1/4', 20, 0.03182),
  unifiedRow('5/16', 18, 0.05243),
  unifiedRow('3/8', 16, 0.07749),
  unifiedRow('7/16', 14, 0.10631),
  unifiedRow('1/2', 13, 0.1419),
  unifiedRow('9/16', 12, 0.18194),
  unifiedRow('5/8', 11, 0.226),
  unifiedRow('3/4', 10, 0.33446),
  unifiedRow('7/8', 9, 0.46174),
  unifiedRow('1', 8, 0.60575),
  unifiedRow('1-1/8', 7, 0.763),
  unifiedRow('1-1/4', 7, 0.969),
  unifiedRow('1-3/8', 6, 1.155),
  unifiedRow('1-1/2', 6, 1.405),
  unifiedRow('1/4', 28, 0.0364),
  unifiedRow('5/16', 24, 0.058),
  unifiedRow('3/8', 24, 0.0878),
  unifiedRow('7/16', 20, 0.1187),
  unifiedRow('1/2', 20, 0.1599),
  unifiedRow('9/16', 18, 0.203),
  unifiedRow('5/8', 18, 0.256),
  unifiedRow('3/4', 16, 0.373),
  unifiedRow('7/8', 14, 0.509),
  unifiedRow('1', 12, 0.663),
  unifiedRow('1-1/8', 12, 0.856),
  unifiedRow('1-1/4', 12, 1.073),
  unifiedRow('1-3/8', 12, 1.315),
  unifiedRow('1-1/2', 12, 1.581),
  whitworthRow('BSW', '1/4', 20),
  whitworthRow('BSW', '5/16', 18),
  whitworthRow('BSW', '3/8', 16),
  whitworthRow('BSW', '7/16', 14),
  whitworthRow('BSW', '1/2', 12),
  whitworthRow('BSW', '9/16', 12),
  whitworthRow('BSW', '5/8', 11),
  whitworthRow('BSW', '3/4', 10),
  whitworthRow('BSW', '7/8', 9),
  whitworthRow('BSW', '1', 8),
  whitworthRow('BSW', '1-1/8', 7),
  whitworthRow('BSW', '1-1/4', 7),
  whitworthRow('BSW', '1-3/8', 6),
  whitworthRow('BSW', '1-1/2', 6),
  whitworthRow('BSF', '1/4', 26),
  whitworthRow('BSF', '5/16', 22),
  whitworthRow('BSF', '3/8', 20),
  whitworthRow('BSF', '7/16', 18),
  whitworthRow('BSF', '1/2', 16),
  whitworthRow('BSF', '9/16', 16),
  whitworthRow('BSF', '5/8', 14),
  whitworthRow('BSF', '3/4', 12),
  whitworthRow('BSF', '7/8', 11),
  whitworthRow('BSF', '1', 10),
  whitworthRow('BSF', '1-1/8', 9),
  whitworthRow('BSF', '1-1/4', 9),
  whitworthRow('BSF', '1-3/8', 8),
  whitworthRow('BSF', '1-1/2', 8),
]

/** The size of an inch thread without its pitch or series: 1/2 of 1/2-13, 1-1/8 of 1-1/8 BSW. */
export const inchSize = ({ name }: Pick<Thread, 'name'>): string => name.replace(/(-\d+| BS[WF])$/, '')

/** Inch threads that a size alone means: the coarse ones of the unified series. */
const COARSE_TPI: Readonly<Record<string, number>> = {
  '1/4': 20, '5/16': 18, '3/8': 16, '7/16': 14, '1/2': 13, '9/16': 12, '5/8': 11, '3/4': 10, '7/8': 9, '1': 8,
  '1-1/8': 7, '1-1/4': 7, '1-3/8': 6, '1-1/2': 6,
} // prettier-ignore
const isCoarse = (t: Thread): boolean => t.name === `${inchSize(t)}-${COARSE_TPI[inchSize(t)]}`

/** Sizes that a shop has first: those of the first choice of ISO 261, and the even inch sizes. */
const FIRST_CHOICE = ['M5', 'M6', 'M8', 'M10', 'M12', 'M16', 'M20', 'M24', 'M30', 'M36']
const FIRST_INCH = ['1/4', '5/16', '3/8', '1/2', '5/8', '3/4', '1']
export const FIRST_CHOICE_THREADS: readonly Thread[] = THREADS.filter(
  (t) => FIRST_CHOICE.includes(t.name) || (isCoarse(t) && FIRST_INCH.includes(inchSize(t))),
)

const normal = (text: string) =>
  text
    .trim()
    .toLowerCase()
    // One and a half: a dash stands between whole and fraction.
    .replace(/(\d)\s*(?=[½¼¾⅛⅜⅝⅞])/g, '$1-')
    .replace(/(\d)\s+(?=\d+\/)/g, '$1-')
    .replace(/[⅛]/g, '1/8')
    .replace(/½/g, '1/2')
    .replace(/¼/g, '1/4')
    .replace(/¾/g, '3/4')
    .replace(/[⅜]/g, '3/8')
    .replace(/[⅝]/g, '5/8')
    .replace(/[⅞]/g, '7/8')
    .replace(/whit(worth)?/g, 'bsw')
    .replace(/\s*(in\.?|")\s*/g, '')
    .replace(/[–—]/g, '-')
    .replace(/\s+/g, '')

/**
 * The thread that a name means: M12, M12x1.75, 1/2-13, 1/2 UNC, 1/2 UNF, 1/2 BSW, ½ in; null where the table has none. A fine metric
 * pitch finds the coarse thread, whose smaller stress area and lower proof load are the careful side.
 */
export function findThread(name: string): Thread | null {
  let thread = found.get(name)
  if (thread === undefined) {
    if (found.size >= MOST_NAMES) found.clear()
    found.set(name, (thread = lookUp(name)))
  }
  return thread
}

/** Names looked up before: one job has few, and each analysis asks for them again. */
const found = new Map<string, Thread | null>()
const MOST_NAMES = 500

function lookUp(name: string): Thread | null {
  const wanted = normal(name).replace(/^m(\d+)[x×]\d+([.,]\d+)?$/, 'm$1')
  const size = wanted.replace(/un[cf]$/, '')
  const inch = THREADS.filter((t) => t.standard === 'unified' && inchSize(t) === size)
  return (
    THREADS.find((t) => normal(t.name) === wanted || normal(t.name) === size) ??
    inch.find((t) => isCoarse(t) !== wanted.endsWith('unf')) ??
    null
  )
}

/** Nominal diameter in mm, or null for a name not in the table. */
export const threadDiameter = (name: string): number | null => findThread(name)?.diameter ?? null

/** The class that a thread's usual stud has. */
export const usualClass = (thread: Thread): string => USUAL_CLASS[thread.standard]
const USUAL_CLASS = { metric: '8.8', unified: 'grade 5', whitworth: '4.6' } as const

/** The name in the tables of a class (8.8) or grade (5, grade 5, gr 5, B7); null where the thread is not made in it. */
function classNamed(thread: Thread, strengthClass: string): string | null {
  const text = strengthClass.trim().toLowerCase()
  const bare = text.replace(/^(grade|gr\.?)\s*/, '')
  const grade = bare === 'b7' ? 'b7' : `grade ${bare}`
  const wanted = { metric: [text], unified: [grade], whitworth: [text, grade] }[thread.standard]
  return Object.keys(thread.proof).find((key) => wanted.includes(key.toLowerCase())) ?? null
}

/** Proof load in N for a class (8.8) or grade (5, grade 5, gr 5, B7); null where the table has none. */
export function proofLoad(thread: Thread, strengthClass: string): number | null {
  const key = classNamed(thread, strengthClass)
  return key === null ? null : thread.proof[key]!
}

const CLASSES = { metric: METRIC_CLASSES, unified: UNIFIED_GRADES, whitworth: WHITWORTH_CLASSES } as const

/** Yield stress in N/mm² of a thread in a class or grade, for bending and shear; null where the table has none. */
export function yieldStress(thread: Thread, strengthClass: string): number | null {
  const key = classNamed(thread, strengthClass)
  return key === null ? null : CLASSES[thread.standard][key]!.yields(thread.diameter)
}

/** What of a thread tells its depth; a standard left out is that of 60° threads. */
type Shape = Pick<Thread, 'diameter' | 'pitch'> & { readonly standard?: ThreadStandard }
function isWhitworth({ standard }: Shape): boolean {
  return standard === 'whitworth'
}

/**
 * Pitch diameter d₂ = d − 0.649519·P, mm (basic profile, ISO 724; the unified profile is the same); of the 55° thread
 * d − 0.640327·P (BS 84).
 */
export function pitchDiameter(thread: Shape): number {
  return thread.diameter - (isWhitworth(thread) ? 0.640327 : 0.649519) * thread.pitch
}

/**
 * Root diameter of an external thread d₃ = d − 1.226869·P, mm (ISO 724), of the 55° thread d − 1.280654·P (BS 84): the
 * section that bends and shears.
 */
export function rootDiameter(thread: Shape): number {
  return thread.diameter - (isWhitworth(thread) ? 1.280654 : 1.226869) * thread.pitch
}

/** Tensile stress area A_s = π/4·((d₂ + d₃)/2)², mm² (ISO 898-1); of the 55° thread that of its core. */
export const threadStressArea = (thread: Shape): number =>
  discArea(isWhitworth(thread) ? rootDiameter(thread) : (pitchDiameter(thread) + rootDiameter(thread)) / 2)

/** mm³ of threaded rod: a cylinder of the stress area, which lies between core and pitch diameter. */
export const rodVolume = (thread: Thread, length: number): number => thread.stressArea * length
