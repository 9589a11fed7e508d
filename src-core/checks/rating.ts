/** What plate, spindle and nose are rated for. */
import type { Finding } from '../findings/finding.ts'
import type { Job, Lathe, Plate, Setup } from '../job/schema.ts'
import { spindleSteps, turnsAt } from '../job/spindle.ts'
import { STANDARD_GRAVITY, coupleMoment } from '../unbalance/static.ts'
import { convert } from '../units/convert.ts'
import { formatter, plain } from '../units/format.ts'
import { finding } from '../findings/finding.ts'

/** m/s: rim speed above which iron sheaves need special consideration, 6500 ft/min (MPTA-B13i-2013). */
export const IRON_RIM_SPEED = convert(6500, 'ft', 'm') / 60

/**
 * Share of it that a plate cut by slots is allowed. Slots cut through the ring of metal that holds a sheave's rim together,
 * so half its stress is allowed, which grows with the square of the speed. Rule of thumb, Evenswing's own: nothing
 * published was found for faceplates.
 */
const SLOTTED = Math.SQRT1_2

/** m/s that stands in for a plate's rating. */
export const plateRimSpeed = ({ slots }: Plate): number => IRON_RIM_SPEED * (slots.length > 0 ? SLOTTED : 1)

/** rpm at which a rim of this diameter (mm) reaches a speed in m/s. */
export const rimRpm = (diameter: number, speed: number): number => (60 * speed * 1000) / (Math.PI * diameter)

/** rpm: the plate's rated speed, else the rim speed of a cast-iron plate standing in for it. */
export function plateLimit(plate: Plate): number {
  return plate.ratedSpeed ?? rimRpm(plate.diameter, plateRimSpeed(plate))
}

/** rpm, or null where the lathe gives none. */
export const spindleLimit = (lathe: Lathe): number | null => lathe.maxSpindleSpeed

export function ratingFindings(job: Job, setup: Setup): Finding[] {
  const fmt = formatter(job.displayUnits)
  const { plate, lathe } = job
  const rim = rimRpm(plate.diameter, plateRimSpeed(plate))
  const of = plate.slots.length > 0 ? 'half the stress of ' : ''
  const rimWords = `${fmt.speedLimit(rim)}, a rim speed of ${plain(plateRimSpeed(plate), 0)} m/s (${of}6500 ft/min, MPTA-B13i for iron sheaves)`
  const findings: Finding[] = []
  if (plate.ratedSpeed === null)
    findings.push(
      finding(
        'caution',
        'plate-not-rated',
        'plate',
        `The plate's rated speed is not given; ${rimWords}, stands in for it as a rule of thumb. Look for the maker's figure.`,
      ),
    )
  else if (plate.ratedSpeed > rim)
    findings.push(
      finding(
        'caution',
        'plate-rating-high',
        'plate',
        `The plate's rated speed ${fmt.speed(plate.ratedSpeed)} is above ${rimWords}. Check the maker's figure; a cast-iron plate is not likely to carry it.`,
      ),
    )
  const speed = setup.speed
  if (speed !== null && speed > plateLimit(plate))
    findings.push(
      finding(
        'stop',
        'over-plate-rating',
        'plate',
        `${fmt.speed(speed)} is above the plate's ${fmt.speedLimit(plateLimit(plate))}. Run slower.`,
        null,
        plateLimit(plate),
      ),
    )
  if (speed !== null && lathe.maxSpindleSpeed !== null && speed > lathe.maxSpindleSpeed)
    findings.push(
      finding(
        'stop',
        'over-spindle-speed',
        'lathe',
        `${fmt.speed(speed)} is above the spindle's ${fmt.speed(lathe.maxSpindleSpeed)}. Run slower.`,
        null,
        lathe.maxSpindleSpeed,
      ),
    )
  if (lathe.maxSpindleSpeed === null)
    findings.push(
      finding(
        'caution',
        'spindle-not-rated',
        'lathe',
        "The spindle's maximum speed is not given, so it limits nothing here. Look on the lathe's speed plate.",
      ),
    )
  if (speed !== null && !turnsAt(lathe, speed))
    findings.push(
      finding(
        'note',
        'no-such-gear',
        'lathe',
        `${fmt.speed(speed)} is not one of this lathe's spindle speeds (${speedsWords(lathe)}).`,
      ),
    )
  return findings
}

/** `45, 70, 110` or `20 to 400 without steps`. */
function speedsWords(lathe: Lathe): string {
  const { stepless } = lathe.speeds
  const range = stepless ? [`${plain(stepless[0], 1)} to ${plain(stepless[1], 1)} without steps`] : []
  return [...spindleSteps(lathe).map((rpm) => plain(rpm, 1)), ...range].join(', ')
}

/**
 * N·m: moment of everything's weight about the front bearing's centre, m·g·(overhang + z), z of the centre of mass in
 * front of the plate's face; null where the overhang is not given. Statics.
 */
export function bearingMoment(lathe: Lathe, mass: number, z: number): number | null {
  return lathe.noseOverhang === null ? null : (mass * STANDARD_GRAVITY * (lathe.noseOverhang + z)) / 1000
}

/**
 * Load on the nose against its limit; moments of weight and couple.
 * @param mass kg of everything that turns. @param moment N·m on the front bearing. @param couple g·mm²
 */
export function noseFindings(
  job: Job,
  setup: Setup,
  mass: number,
  moment: number | null,
  couple: number,
): Finding[] {
  const fmt = formatter(job.displayUnits)
  const { loadLimit } = job.lathe
  const findings: Finding[] = []
  if (loadLimit === null)
    findings.push(
      finding(
        'caution',
        'nose-load-not-checked',
        'lathe',
        `The load on the nose, ${fmt.mass(mass)}, was not checked: the lathe's limit is not given. Look in its manual.`,
      ),
    )
  else if (mass > loadLimit)
    findings.push(
      finding(
        'stop',
        'over-nose-load',
        'lathe',
        `The spindle nose is overloaded: ${fmt.mass(mass)} hang on it against a limit of ${fmt.mass(loadLimit)}. Lighten the set-up or use a bigger lathe.`,
      ),
    )
  if (moment !== null) {
    const turning =
      setup.speed === null
        ? ''
        : `, and the couple adds a turning ${fmt.torque(coupleMoment(couple, setup.speed))} at ${fmt.speed(setup.speed)}`
    findings.push(
      finding(
        'note',
        'bearing-moment',
        'lathe',
        `Weight puts ${fmt.torque(moment)} on the front bearing (${fmt.mass(mass)}, ${fmt.length((moment / mass / STANDARD_GRAVITY) * 1000)} in front of it)${turning}.`,
      ),
    )
  }
  return findings
}
