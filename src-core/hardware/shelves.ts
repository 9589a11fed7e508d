/** Usual proportions of angle plates and vees: where to start; the shop's own are typed over them. mm. */
import type { AnglePlate, Vee } from '../job/schema.ts'

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

/** As many webs as a usual one has, as thick as its walls; from memory. */
export const usualWebs = (thickness: number): AnglePlate['webs'] => ({ count: 2, thickness })

/** Of cast iron, kg/m³. */
export const SHELF_DENSITY = 7200

/**
 * A vee of a right angle by the round that it is to take, with lands wide enough for the heels of straps; proportions
 * from memory.
 */
export function usualVee(round: number): Pick<Vee, 'size' | 'angle' | 'opening' | 'foot' | 'holes'> {
  const part = (share: number) => Math.round(share * round)
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
      diameter: 12,
      thread: 'M12',
    })),
  }
}
