import { describe, expect, test } from 'vitest'
import { CATALOGUE, usualSizes } from '../../../src-core/hardware/catalogue.ts'
import {
  massOf,
  nameOf,
  pieceOf,
  shapeOf,
  stockOf,
  usualChoice,
  type Choice,
} from '../../../src-core/hardware/choice.ts'
import { leastThickness, USUAL_ANGLE_PLATES_INCH, usualWebs } from '../../../src-core/hardware/shelves.ts'
import { nutSize, nutVolume } from '../../../src-core/hardware/nuts.ts'
import { usualTorque } from '../../../src-core/hardware/preload.ts'
import { findThread, THREADS } from '../../../src-core/hardware/threads.ts'

const choice = (
  kind: Choice['kind'],
  sizes: Choice['sizes'],
  material = 'mild steel',
  thread = 'M12',
): Choice => ({
  kind,
  units: 'mm',
  sizes,
  material,
  thread,
})
describe('mass from size and material', () => {
  test('a disc less its hole, a block, worked by hand', () => {
    // π/4·(50² − 14²)·25 mm³ of steel at 7850 kg/m³.
    expect(massOf(choice('round', { diameter: 50, height: 25, hole: 14 }))).toBeCloseTo(0.3551, 4)
    expect(massOf(choice('rectangular', { length: 60, width: 40, height: 20, hole: 0 }, 'lead'))).toBeCloseTo(
      60 * 40 * 20 * 11_340e-9,
      4,
    )
    expect(massOf(choice('packing', { length: 50, width: 20, height: 12 }, 'aluminium'))).toBeCloseTo(
      0.0324,
      4,
    )
  })
  test('nuts: a hexagon less its thread, and flats of about one and a half diameters', () => {
    // M16: (√3/2·24² − π/4·14.701²)·14.8 mm³.
    expect(massOf(choice('nut', {}, 'mild steel', 'M16'))).toBeCloseTo(0.0382, 4)
    for (const t of THREADS) {
      const nut = nutSize(t)!
      expect(nut.flats, t.name).toBeGreaterThan(1.4 * t.diameter)
      expect(nut.flats, t.name).toBeLessThan(1.8 * t.diameter)
      expect(nutVolume(t, nut)).toBeGreaterThan(0)
    }
  })
  test('an angle bracket has its mass centre where its two legs put it', () => {
    const { volume, massCentre } = shapeOf(
      choice('bracket', { length: 60, height: 60, width: 50, thickness: 10 }),
    )
    expect(volume).toBe((60 * 10 + 50 * 10) * 50)
    // Foot 600 mm² at x 0, z 5; upright 500 mm² at x −25, z 35.
    expect(massCentre!.x).toBeCloseTo((500 * -25) / 1100, 9)
    expect(massCentre!.z).toBeCloseTo((600 * 5 + 500 * 35) / 1100, 9)
  })
  test('angle plates and vees by hand, of cast iron', () => {
    const walls = 175 * 16 * (100 + 125 - 16) + 2 * 16 * ((84 * 109) / 2)
    expect(massOf(usualChoice('anglePlate', 'mm', 1))).toBeCloseTo(walls * 7200e-9, 4)
    expect(shapeOf(choice('anglePlate', { length: 100, height: 20, width: 80, thickness: 20 })).volume).toBe(
      0,
    )
    // For 80: 240 × 50 × 110 less a triangle 62 wide and 31 deep, and a foot of 50 × 20.
    const block = (240 * 50 - (62 * 31) / 2) * 110 + 240 * 50 * 20
    expect(massOf(usualChoice('vee', 'mm', 2))).toBeCloseTo(block * 7200e-9, 4)
    expect(stockOf(usualChoice('vee', 'mm'), 1)).toBeNull()
    expect(pieceOf(usualChoice('anglePlate', 'mm'), { x: 0, y: 0 }, 0)).toBeNull()
  })
  test('usual angle plates in inches are no thinner than the table asks', () => {
    for (const { size, thickness } of USUAL_ANGLE_PLATES_INCH)
      expect(thickness).toBeGreaterThanOrEqual(leastThickness({ size, webs: usualWebs(thickness) }))
  })
  test('an inch shop has its own round sizes, said in inches', () => {
    for (const kind of CATALOGUE) {
      const all = usualSizes(kind, 'in').filter((u) => findThread(u.thread ?? '')?.standard !== 'metric')
      expect(all.length, kind.name).toBeGreaterThan(0)
      // What the first one offers is of its own standard.
      expect(findThread(usualChoice(kind.name, 'in').thread)!.standard).toBe('unified')
      for (const { sizes } of all)
        for (const [name, mm] of Object.entries(sizes))
          expect(((mm / 25.4) * 16) % 1, `${kind.name} ${name} ${mm}`).toBeCloseTo(0, 3)
    }
    expect(nameOf(usualChoice('round', 'in', 2))).toBe('round weight 2 × 1 in')
    expect(nameOf(usualChoice('round', 'mm', 2))).toBe('round weight 50 × 25')
    // π/4·(2² − (9/16)²)·1 in³ of steel at 7850 kg/m³.
    const inch3 = 25.4 ** 3
    expect(massOf(usualChoice('round', 'in', 2))).toBeCloseTo(
      (Math.PI / 4) * (4 - (9 / 16) ** 2) * inch3 * 7850e-9,
      4,
    )
  })
  test('a hole larger than the piece leaves nothing to put anywhere', () => {
    const all = choice('round', { diameter: 20, height: 10, hole: 30 })
    expect(massOf(all)).toBeNull()
    expect(pieceOf(all, { x: 0, y: 0 }, 0)).toBeNull()
    expect(stockOf(all, 1)).toBeNull()
  })
})

describe('usual torque', () => {
  test('three quarters of proof load by T = K·D·F', () => {
    // 0.2 × 12 mm × 0.75 × 48 900 N = 88 N·m.
    expect(usualTorque(findThread('M12')!, '8.8')).toBe(88)
    expect(usualTorque(findThread('M12')!, '99')).toBeNull()
  })
})
