/** Readings while they are being noted: whatever is not there yet is null. */
import { z } from 'zod'
import { checkReadings, type Readings, type ReadingsResult, type TrialWeight } from './readings.ts'

const figure = z.number().nullable()
const MOST = 24

export const trimEntry = z.strictObject({
  method: z.enum(['roll', 'four-run', 'vector']),
  rests: z.array(figure).min(1).max(MOST),
  holds: z
    .array(
      z.strictObject({
        radius: figure,
        up: figure,
        down: figure,
        side: z.union([z.literal(90), z.literal(-90)]),
      }),
    )
    .max(MOST),
  rpm: figure,
  first: z.strictObject({ amplitude: figure, phase: figure }),
  /** Of amplitudes alone at least three; with phase the first counts. */
  trials: z
    .array(z.strictObject({ mass: figure, radius: figure, angle: figure, amplitude: figure, phase: figure }))
    .min(1)
    .max(MOST),
})

export type TrimEntry = z.infer<typeof trimEntry>

/** An empty page: three rests, both sides held, three trial places a third of a turn apart. */
export const newEntry = (rpm: number | null): TrimEntry => ({
  method: 'roll',
  rests: [null, null, null],
  holds: [
    { radius: null, up: null, down: null, side: 90 },
    { radius: null, up: null, down: null, side: -90 },
  ],
  rpm,
  first: { amplitude: null, phase: null },
  trials: [0, 120, 240].map((angle) => ({ mass: null, radius: null, angle, amplitude: null, phase: null })),
})

/** A page to measure again as it was measured last: the way, the speed, weights and places stand, nothing is read yet. */
export function entryLike(last: Readings, rpm: number | null): TrimEntry {
  const empty = newEntry(rpm)
  const { method } = last
  switch (method) {
    case 'roll': {
      const holds = empty.holds.map((h) => ({
        ...h,
        radius: last.hold?.find((l) => l.side === h.side)?.radius_mm ?? null,
      }))
      return { ...empty, method, holds }
    }
    case 'four-run':
      return { ...empty, method, rpm: last.rpm, trials: last.trials.slice(0, MOST).map(placed) }
    case 'vector':
      return {
        ...empty,
        method,
        rpm: last.rpm,
        trials: [placed(last.trial), ...empty.trials.slice(1)],
      }
  }
}

const placed = ({ mass_g, radius_mm, angle_deg }: TrialWeight): TrimEntry['trials'][number] => ({
  mass: mass_g,
  radius: radius_mm,
  angle: angle_deg,
  amplitude: null,
  phase: null,
})

const isWhole = (values: readonly (number | null)[]): values is readonly number[] =>
  values.every((v) => v !== null)

/** The readings as far as whole rows go; null while too little is there to be judged. */
export function readingsOf(entry: TrimEntry): ReadingsResult | null {
  switch (entry.method) {
    case 'roll': {
      const rests_deg = entry.rests.filter((r) => r !== null)
      const hold = entry.holds
        .filter((h) => isWhole([h.radius, h.up, h.down]))
        .map((h) => ({ radius_mm: h.radius, up_g: h.up, down_g: h.down, side: h.side }))
      return rests_deg.length === 0 ? null : checkReadings({ method: 'roll', rests_deg, hold })
    }
    case 'four-run': {
      const trials = entry.trials
        .filter((t) => isWhole([t.mass, t.radius, t.angle, t.amplitude]))
        .map((t) => ({ mass_g: t.mass, radius_mm: t.radius, angle_deg: t.angle, amplitude: t.amplitude }))
      if (entry.rpm === null || entry.first.amplitude === null || trials.length < 3) return null
      return checkReadings({ method: 'four-run', rpm: entry.rpm, first: entry.first.amplitude, trials })
    }
    case 'vector': {
      const t = entry.trials[0]!
      const { amplitude, phase } = entry.first
      if (!isWhole([entry.rpm, amplitude, phase, t.mass, t.radius, t.angle, t.amplitude, t.phase]))
        return null
      return checkReadings({
        method: 'vector',
        rpm: entry.rpm,
        first: { amplitude, phase_deg: phase },
        trial: {
          mass_g: t.mass,
          radius_mm: t.radius,
          angle_deg: t.angle,
          amplitude: t.amplitude,
          phase_deg: t.phase,
        },
      })
    }
  }
}
