/** A plate's hole, a bolt, a strap and a large lathe, of which the jobs beside are made. Invented. */
import type { Point } from '../../src-core/geometry/types.ts'
import type { Clamp, Lathe, Plate, ThroughBolt } from '../../src-core/job/schema.ts'
import { steps } from './jobs.ts'

export const O = { x: 0, y: 0 }

export const hole = (id: string, { x, y }: Point, diameter: number): Plate['holes'][number] => ({
  id,
  x,
  y,
  diameter,
})

/** A bolt through a hole of the part, into the plate's hole behind. */
export const through = (id: string, at: Point, thread: string, torque: number): ThroughBolt => ({
  id,
  kind: 'bolt',
  throughPart: at,
  stud: { thread, class: '8.8', length: 'suit' },
  torque,
  fixed: true,
})

/** A strap from a plate's hole, its toe `toWork` from its bolt. */
export const strap = (
  id: string,
  at: string,
  facing: number,
  size: readonly [number, number, number],
  toWork: number,
  thread: string,
  torque: number,
): Clamp => ({
  id,
  kind: 'clamp',
  at: { hole: at },
  facing,
  strap: {
    length: size[0],
    width: size[1],
    thickness: size[2],
    boltFrom: toWork,
    opening: Number(thread.slice(1)) + 2,
    slotted: 0,
  },
  stud: { thread, class: '8.8', length: 'suit' },
  torque,
  heel: { kind: 'block', size: [size[1] * 0.8, size[1] * 0.8], height: 'suit' },
  packing: { size: [size[1] * 0.8, size[1] * 0.8] },
  fixed: true,
})

export const LARGE: Partial<Lathe> = {
  name: 'gap bed lathe, 400 mm centre height',
  swingOverBed: 800,
  swingOverCrossSlide: 560,
  gap: { swing: 1100, width: 320, open: false },
  speeds: steps(12, 18, 26, 38, 55, 80, 115, 165),
  maxSpindleSpeed: 500,
  noseOverhang: 150,
  loadLimit: 900,
  barReach: 260,
  startTime: 3,
  brakeTime: 2,
  nose: { kind: 'flanged', locked: false },
  mass: 3800,
  boltedDown: true,
  carriage: { profile: [{ behind: 260, radius: 90 }] },
  behindPlate: { depth: 70 },
}
