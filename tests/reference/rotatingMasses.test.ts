/**
 * Textbook problems of masses turning in one plane and in several, put on a plate as hardware: the analysis must find
 * the resultant, and with the textbook's answer bolted on nothing may be left. Full figures are recomputed from the
 * same inputs; answers found by drawing are up to two per cent off and only named.
 */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Hardware } from '../../src-core/job/schema.ts'
import { disc, jobWith, partOf, piece } from '../helpers/jobs.ts'
import { expectNear } from '../helpers/near.ts'

/** mass, radius, angle in degrees, z */
type Row = readonly [number, number, number, number?]

const HEIGHT = 10
function hung([mass, radius, angle, z = 0]: Row, i: number): Hardware {
  const a = (angle * Math.PI) / 180
  return piece(
    `m${i}`,
    mass,
    { x: radius * Math.cos(a), y: radius * Math.sin(a) },
    { height: HEIGHT, base: z - HEIGHT / 2, footprint: { circle: 5 } },
  )
}

/** The plate and a disc on the axis have no unbalance of their own, static or couple. */
function spin(rows: readonly Row[]) {
  const part = partOf([disc('d', { x: 0, y: 0 }, 100, 10)])
  return analyse(jobWith({ part, setup: { hardware: rows.map(hung) } }), 'op10').unbalance
}

describe('one plane', () => {
  test.each([
    {
      // Khurmi & Gupta, Theory of Machines, ch. 21, ex. 21.1, radii in mm. Attribution, 116 kg and 201.48°: from memory.
      name: 'four masses of a shaft',
      rows: [
        [200, 200, 0],
        [300, 150, 45],
        [240, 250, 120],
        [260, 300, 255],
      ],
      resultant: 23_219_789,
      direction: 21.311913,
      answer: [116.09895, 200, 201.31191],
    },
    {
      // Companion to a textbook, "Balancing of Rotating Masses", p. 221, illustration 1: 8.1 kg at 267.5°.
      name: 'four masses, balance at 100 mm',
      rows: [
        [12, 40, 0],
        [10, 50, 60],
        [18, 60, 130],
        [15, 30, 270],
      ],
      resultant: 811_130.65,
      direction: 87.47113,
      answer: [8.1113065, 100, 267.47113],
    },
    {
      // mechdiploma.com, three masses in N as kg. It prints the resultant's 60° for the balance's angle.
      name: 'three masses',
      rows: [
        [100, 300, 0],
        [200, 150, 45],
        [150, 250, 120],
      ],
      resultant: 62_740_618,
      direction: 58.8407,
      answer: [313.70309, 200, 238.8407],
    },
    {
      // An exam's four masses; no answer is printed.
      name: 'four masses, balance at 60 mm',
      rows: [
        [30, 45, 0],
        [60, 50, 90],
        [50, 70, 120],
        [25, 40, 270],
      ],
      resultant: 5_046_965,
      direction: 94.54578,
      answer: [84.116083, 60, 274.54578],
    },
  ] as { name: string; rows: Row[]; resultant: number; direction: number; answer: Row }[])(
    '$name',
    ({ rows, resultant, direction, answer }) => {
      const u = spin(rows)
      expectNear(u.static_g_mm, resultant, { rel: 1e-6 })
      expectNear(u.static_angle_deg, direction, { abs: 1e-4 })
      expectNear(u.couple_g_mm2, 0, { abs: 1e-9 * resultant })
      expectNear(spin([...rows, answer]).static_g_mm, 0, { abs: 2e-6 * resultant })
    },
  )
})

describe('several planes: force and couple vanish together', () => {
  test.each([
    {
      // Khurmi & Gupta, ex. 21.2. Inputs and answer (355 kg at 145°, 182.5 kg at 12.5°, clockwise, by drawing) from memory.
      name: 'four masses, two planes between them',
      rows: [
        [200, 80, 0, 0],
        [300, 70, 45, 300],
        [400, 60, 115, 400],
        [200, 80, 235, 700],
      ],
      answer: [
        [352.97212, 100, 213.37132, 100],
        [184.05902, 100, 347.19773, 500],
      ],
    },
    {
      // Civil-service examination 2004, also in Khurmi & Gupta as ex. 21.4: four masses in complete balance among
      // themselves, two of them known. Its 9.67 kg for A agrees.
      name: 'four masses that balance each other',
      rows: [
        [18, 60, 0, 100],
        [12.5, 60, 100, 300],
      ],
      answer: [
        [9.6692092, 80, 190, 0],
        [7.9105693, 80, 252.72024, 366.68565],
      ],
    },
    {
      // An exam's four masses, planes at 40 and 220 mm; no answer is printed.
      name: 'four masses, planes at 40 and 220',
      rows: [
        [18, 50, 0, 0],
        [14, 60, 60, 80],
        [16, 70, 135, 160],
        [12, 60, 270, 280],
      ],
      answer: [
        [31.599211, 50, 222.61737, 40],
        [13.796621, 50, 23.074947, 220],
      ],
    },
    {
      // Textbook problem 12.58 (holooly.com), N as kg and metres as mm; no answer is printed.
      name: 'two masses on a long shaft',
      rows: [
        [100, 450, 0, 1200],
        [200, 600, 60, 2400],
      ],
      answer: [
        [126.39843, 300, 200.03399, 300],
        [381.25, 300, 232.65901, 2700],
      ],
    },
  ] as { name: string; rows: Row[]; answer: Row[] }[])('$name', ({ rows, answer }) => {
    const before = spin(rows)
    const after = spin([...rows, ...answer])
    expect(before.static_g_mm).toBeGreaterThan(1000)
    expect(before.couple_g_mm2).toBeGreaterThan(1e5)
    const force = rows.reduce((sum, [m, r]) => sum + 1000 * m * r, 0)
    const couple = rows.reduce((sum, [m, r, , z]) => sum + 1000 * m * r * (z ?? 0), 0)
    expectNear(after.static_g_mm, 0, { abs: 1e-6 * force })
    expectNear(after.couple_g_mm2, 0, { abs: 1e-6 * couple })
    // Either answer alone leaves a couple.
    expect(spin([...rows, answer[0]!]).couple_g_mm2).toBeGreaterThan(1e-3 * couple)
  })

  // A maker of balancers explains its units so (micropoise.com).
  test('an ounce at 8 in and its opposite 7 in along the axis make 56 oz·in²', () => {
    const [ounce, inch] = [0.028349523125, 25.4]
    const u = spin([
      [ounce, 8 * inch, 0, 0],
      [ounce, 8 * inch, 180, 7 * inch],
    ])
    expectNear(u.static_g_mm, 0, { abs: 1e-6 })
    expectNear(u.couple_g_mm2 / (1000 * ounce * inch * inch), 56, { rel: 1e-9 })
  })
})
