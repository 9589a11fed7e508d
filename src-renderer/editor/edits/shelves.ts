/** Angle plates and vees as they are put down. */
import { sizeFor } from '../../../src-core/units/convert.ts'
import { polar } from '../../../src-core/geometry/angles.ts'
import { SHELF_DENSITY, USUAL_ANGLE_PLATES, usualVee, usualWebs } from '../../../src-core/hardware/shelves.ts'
import type { AnglePlate, Job, Plate, Vee } from '../../../src-core/job/schema.ts'
import { placePoint } from '../../../src-core/mounting/place.ts'
import { anchorAt } from '../../../src-core/mounting/plateFace.ts'
import { roundTo } from '../snap.ts'
import type { Piece } from './edit.ts'
import { usualBolt } from './fixtures.ts'

/** Facing up, its shelf a fifth of the plate's diameter below the axis. */
const FACING = 90
const BELOW = 0.2

/** The largest usual one whose shelf is no longer than two fifths of the plate. */
export function newAnglePlate(job: Job): Piece<AnglePlate> {
  const { plate } = job
  const fits = USUAL_ANGLE_PLATES.filter(({ size }) => size[0] <= 0.4 * plate.diameter)
  const { size, thickness } = fits.at(-1) ?? USUAL_ANGLE_PLATES[0]!
  const at = standAt(plate)
  return {
    kind: 'anglePlate',
    at,
    facing: FACING,
    size: [...size],
    thickness,
    webs: usualWebs(thickness),
    density: SHELF_DENSITY,
    slots: [-1, 1].map((side, i) => ({
      id: `G${i + 1}`,
      x: (side * size[0]) / 4,
      y: (size[2] + thickness) / 2,
      angle: 90,
      length: roundTo(0.6 * (size[2] - thickness), 1),
      width: sizeFor(job.displayUnits, 14, 9 / 16),
    })),
    holes: [],
    bolts: boltsThrough(job, at, [-size[1], -thickness], size[0]),
    fixed: true,
  }
}

/** For rounds up to a quarter of the plate. */
export function newVee(job: Job): Piece<Vee> {
  const { plate } = job
  const shape = usualVee(roundTo(plate.diameter / 4, 5))
  const [across, deep, out] = shape.size
  const at = standAt(plate)
  const land = roundTo((across + shape.opening) / 4, 1)
  return {
    kind: 'vee',
    at,
    facing: FACING,
    ...shape,
    density: SHELF_DENSITY,
    holes: [-1, 1].map((side, i) => ({
      id: `H${i + 1}`,
      x: side * land,
      y: roundTo(out / 2, 1),
      diameter: sizeFor(job.displayUnits, 12, 1 / 2),
      thread: job.displayUnits === 'in' ? '1/2-13' : 'M12',
    })),
    bolts: boltsThrough(job, at, [-deep - shape.foot.length, -deep], across),
    fixed: true,
  }
}

const standAt = (plate: Plate) => {
  const { x, y } = polar(BELOW * plate.diameter, FACING + 180)
  return { x: roundTo(x, 0.01), y: roundTo(y, 0.01) }
}

/** mm between places that are tried, and from a bolt's middle to the foot's edge. */
const STEP = 2
const RIM = 15

/** One through each half of a foot that has a slot or hole behind it, as far apart as it goes. */
function boltsThrough(
  job: Job,
  at: { x: number; y: number },
  foot: readonly [number, number],
  along: number,
) {
  const places = (side: number) => {
    for (let y = along / 2 - RIM; y >= 0; y -= STEP)
      for (let x = foot[0] + RIM; x <= foot[1] - RIM; x += STEP) {
        const p = { x, y: side * y }
        const anchor = anchorAt(job.plate, placePoint({ turn: FACING, ...at }, p))
        if (anchor && anchor.off < 1)
          return [{ at: { x: roundTo(x, 0.01), y: roundTo(p.y, 0.01) }, ...usualBolt(job) }]
      }
    return []
  }
  return [-1, 1].flatMap(places)
}
