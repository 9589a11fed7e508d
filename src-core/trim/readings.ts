/**
 * What was read at the machine, in one of three ways. Angles are the plate's own, degrees counter-clockwise; masses in
 * g, radii in mm, amplitudes in whatever the meter shows, phase measured the way the plate's angles run.
 */
import { z } from 'zod'
import type { JobFault } from '../job/fault.ts'
import { angle, positiveLength, speed } from '../job/fields.ts'
import { issueFaults, readJson } from '../job/issueWords.ts'
import type { DeepReadonly } from '../job/schema.ts'

const grams = z.number().min(0).max(1e6)
const hungOn = z.number().positive().max(1e6)
const amplitude = z.number().min(0).max(1e9)
/** Of the first run: nought is nothing to settle. */
const shaking = z.number().positive().max(1e9)

/** Most readings of one kind: nobody rolls a plate more often. */
const MOST = 100

const place = { mass_g: hungOn, radius_mm: positiveLength, angle_deg: angle }

/**
 * The spindle let roll to rest. `rests_deg`: the plate's angle that points straight down. `hold`: the plate turned by
 * `side` from rest, so that the heavy side is level, a weight hung on the opposite level radius; `up_g` just lifts the
 * heavy side, `down_g` just lets it fall.
 */
const roll = z.strictObject({
  method: z.literal('roll'),
  rests_deg: z.array(angle).min(1).max(MOST),
  hold: z
    .array(
      z.strictObject({
        radius_mm: positiveLength,
        up_g: hungOn,
        down_g: grams,
        side: z.literal([90, -90]),
      }),
    )
    .max(MOST)
    .optional(),
})

/** Amplitudes alone: as it is, then with one trial weight at a time. */
const fourRun = z.strictObject({
  method: z.literal('four-run'),
  rpm: speed,
  first: shaking,
  trials: z
    .array(z.strictObject({ ...place, amplitude }))
    .min(3)
    .max(MOST),
})

/** Amplitude and phase: as it is, and with one trial weight, which comes off again. */
const vectorRun = z.strictObject({
  method: z.literal('vector'),
  rpm: speed,
  first: z.strictObject({ amplitude: shaking, phase_deg: angle }),
  trial: z.strictObject({ ...place, amplitude, phase_deg: angle }),
})

export type RollReadings = DeepReadonly<z.infer<typeof roll>>
export type FourRunReadings = DeepReadonly<z.infer<typeof fourRun>>
export type VectorReadings = DeepReadonly<z.infer<typeof vectorRun>>
export type Readings = RollReadings | FourRunReadings | VectorReadings
export type TrimMethod = Readings['method']

/** A weight put on for one run. */
export interface TrialWeight {
  readonly mass_g: number
  readonly radius_mm: number
  readonly angle_deg: number
}

export type ReadingsResult =
  | { readonly ok: true; readonly readings: Readings }
  | { readonly ok: false; readonly faults: readonly JobFault[] }

const SCHEMAS = { roll, 'four-run': fourRun, vector: vectorRun } as const
const METHODS = Object.keys(SCHEMAS).join(', ')

/** The only door for readings from a file: text in, readings or all that is wrong with them out. */
export function parseReadings(text: string): ReadingsResult {
  const read = readJson(text)
  return 'reason' in read ? refuse(read.path, read.reason) : checkReadings(read.raw)
}

/** The same for a value that is already read. */
export function checkReadings(raw: unknown): ReadingsResult {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw))
    return refuse('', 'is no set of readings: an object is wanted')
  const method = 'method' in raw ? raw.method : undefined
  if (method === undefined) return refuse('method', `is missing: one of ${METHODS}`)
  if (typeof method !== 'string' || !Object.hasOwn(SCHEMAS, method))
    return refuse('method', `is none of ${METHODS}`)
  const parsed = SCHEMAS[method as TrimMethod].safeParse(raw)
  if (!parsed.success) return { ok: false, faults: issueFaults(parsed.error, raw) }
  const faults = contradictions(parsed.data)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, readings: parsed.data }
}

/** What each reading alone may be, but not together. */
function contradictions(readings: Readings): JobFault[] {
  if (readings.method !== 'roll') return []
  return (readings.hold ?? []).flatMap(({ up_g, down_g }, i) =>
    down_g <= up_g
      ? []
      : [
          {
            path: `hold[${i}].down_g`,
            message: `must be at most up_g (${up_g}), but is ${down_g}: what lets the heavy side fall is lighter than what lifts it`,
          },
        ],
  )
}

const refuse = (path: string, message: string): ReadingsResult => ({ ok: false, faults: [{ path, message }] })
