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

/** As many webs as a usual one has, as thick as its walls; from memory. */
export const usualWebs = (thickness: number): AnglePlate['webs'] => ({ count: 2, thickness })

/** Of cast iron, kg/m³. */
export const SHELF_DENSITY = 7200

/** A vee of a right angle by the largest round that it takes, in proportions from memory. */
export const usualVee = (largest: number): Pick<Vee, 'size' | 'angle' | 'opening' | 'foot'> => ({
  size: [1.5 * largest, 0.75 * largest, largest],
  angle: 90,
  opening: 0.85 * largest,
  foot: { length: 0.6 * largest, thickness: 0.2 * largest },
})
