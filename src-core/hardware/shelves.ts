/** Usual proportions of angle plates and vees: where to start; the shop's own are typed over them. mm. */
import { veeDepth } from '../job/fixtureFaults.ts'
import type { AnglePlate, Vee } from '../job/schema.ts'
import { byRule, inches, sizeFor } from '../units/convert.ts'
import { USUAL_STRAPS } from './straps.ts'
import { findThread, type Thread } from './threads.ts'

/**
 * Angle plates without tee slots, along × foot × shelf with the least thickness of a webbed plate: IS 2554:1971,
 * table 1, sizes 1 to 6. The larger ones carry no faceplate work.
 */
export const USUAL_ANGLE_PLATES: readonly Pick<AnglePlate, 'size' | 'thickness'>[] = [
  { size: [125, 75, 100], thickness: 13 },
  { size: [175, 100, 125], thickness: 16 },
  { size: [250, 150, 175], thickness: 22 },
  { size: [350, 200, 250], thickness: 29 },
  { size: [450, 300, 350], thickness: 32 },
  { size: [600, 400, 450], thickness: 35 },
]

/** The like in inches, no thinner than the table asks between its sizes; from memory, no source. */
export const USUAL_ANGLE_PLATES_INCH: typeof USUAL_ANGLE_PLATES = (
  [
    [5, 3, 4, 9 / 16],
    [7, 4, 5, 11 / 16],
    [10, 6, 7, 15 / 16],
    [14, 8, 10, 19 / 16],
  ] as const
).map(([along, foot, out, thickness]) => ({
  size: [inches(along), inches(foot), inches(out)],
  thickness: inches(thickness),
}))

/** mm that IS 2554 asks more of walls without webs, in its smaller sizes. */
const WITHOUT_WEBS = 3

/**
 * mm, the least thickness of foot and shelf by how far the shelf stands out: straight between the sizes of the table,
 * and from nothing to the smallest. A web thinner than half of that stiffens nothing.
 */
export function leastThickness({ size: [, , out], webs }: Pick<AnglePlate, 'size' | 'webs'>): number {
  const rows = [
    { out: 0, thickness: 0 },
    ...USUAL_ANGLE_PLATES.map((u) => ({ out: u.size[2], thickness: u.thickness })),
  ]
  const above = rows.findIndex((r) => r.out >= out)
  const [from, to] = above < 0 ? [rows.at(-2)!, rows.at(-1)!] : [rows[Math.max(0, above - 1)]!, rows[above]!]
  const share = to.out > from.out ? (out - from.out) / (to.out - from.out) : 0
  const webbed = from.thickness + share * (to.thickness - from.thickness)
  return webs.count > 0 && webs.thickness >= webbed / 2 ? webbed : webbed + WITHOUT_WEBS
}

/** Those of a shop's own units. */
export const usualAnglePlates = (units: 'mm' | 'in'): typeof USUAL_ANGLE_PLATES =>
  units === 'in' ? USUAL_ANGLE_PLATES_INCH : USUAL_ANGLE_PLATES

/** As many webs as a usual one has, as thick as its walls; from memory. */
export const usualWebs = (thickness: number): AnglePlate['webs'] => ({ count: 2, thickness })

/** Of cast iron, kg/m³. */
export const SHELF_DENSITY = 7200

/** mm³ of an angle plate of usual form, holes and slots left in; 0 where its walls leave no corner. */
export function angleVolume({
  size: [along, foot, out],
  thickness,
}: Pick<AnglePlate, 'size' | 'thickness'>): number {
  if (thickness >= Math.min(foot, out)) return 0
  const webs = usualWebs(thickness)
  const corner = ((foot - thickness) * (out - thickness)) / 2
  return along * thickness * (foot + out - thickness) + webs.count * webs.thickness * corner
}

/** mm: rounds below it lie in a vee of this one's size, whose lands have room for studs. */
const LEAST_ROUND = 25
/** Share of the round that a stud through the lands is thick, at most; and the thickest, mm. Own choice. */
const STUD_SHARE = 0.3
const THICKEST = 12.7

/** A share of a size to what a rule shows, and no less than its least. */
const shareOf = (of: number, units: 'mm' | 'in') => (share: number) =>
  Math.max(sizeFor(units, 1, 1 / 16), byRule(share * of, units))

/** A loose block of a right angle by the round that it is to take, its lands free for nothing but the eye; from memory. */
export function usualVeeBlock(
  round: number,
  units: 'mm' | 'in' = 'mm',
): Pick<Vee, 'size' | 'angle' | 'opening' | 'foot'> {
  const part = shareOf(round, units)
  return {
    size: [part(1.25), part(0.625), part(1.125)],
    angle: 90,
    opening: part(0.775),
    foot: { length: 0, thickness: part(0.25) },
  }
}

/**
 * A vee of a right angle by the round that it is to take, with lands wide enough for the heels of straps; proportions
 * from memory.
 */
export function usualVee(
  round: number,
  units: 'mm' | 'in' = 'mm',
): Pick<Vee, 'size' | 'angle' | 'opening' | 'foot' | 'holes'> {
  const by = Math.max(LEAST_ROUND, round)
  const part = shareOf(by, units)
  const stud = landStud(by, units)
  return {
    size: [part(3), part(0.625), part(1.375)],
    angle: 90,
    opening: part(0.775),
    foot: { length: part(0.625), thickness: part(0.25) },
    // One strap from each side, one behind the other.
    holes: [-1, 1].map((side, i) => ({
      id: `H${i + 1}`,
      x: side * part(0.6),
      y: part(i === 0 ? 0.425 : 1),
      diameter: stud.diameter,
      thread: stud.name,
    })),
  }
}

function landStud(round: number, units: 'mm' | 'in'): Thread {
  const standard = units === 'mm' ? 'metric' : 'unified'
  const usual = USUAL_STRAPS.flatMap((s) => findThread(s.thread) ?? []).filter((t) => t.standard === standard)
  const fits = usual.filter((t) => t.diameter <= Math.min(THICKEST, STUD_SHARE * round))
  return fits.at(-1) ?? usual[0]!
}

/** mm³ of a usual vee, its tapped holes left in. */
export function veeVolume(round: number, units: 'mm' | 'in' = 'mm'): number {
  const { size, opening, angle, foot } = usualVee(round, units)
  const [across, deep, out] = size
  const mouth = (opening * veeDepth({ opening, angle })) / 2
  return (across * deep - mouth) * out + across * foot.length * foot.thickness
}
