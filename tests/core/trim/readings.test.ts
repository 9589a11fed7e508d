/** Readings from a file: what is wrong is refused with the field named. */
import { expect, test } from 'vitest'
import { checkReadings, parseReadings } from '../../../src-core/trim/readings.ts'

const roll = {
  method: 'roll',
  rests_deg: [10, 12],
  hold: [{ radius_mm: 100, up_g: 20, down_g: 10, side: -90 }],
}
const trial = { mass_g: 50, radius_mm: 100, angle_deg: 0, amplitude: 4 }
const fourRun = {
  method: 'four-run',
  rpm: 200,
  first: 5,
  trials: [trial, { ...trial, angle_deg: 120 }, { ...trial, angle_deg: 240 }],
}
const vector = {
  method: 'vector',
  rpm: 200,
  first: { amplitude: 5, phase_deg: 30 },
  trial: { ...trial, phase_deg: 90 },
}

test.each([roll, { method: 'roll', rests_deg: [10] }, fourRun, vector])(
  'sound readings are taken: %j',
  (readings) => {
    expect(checkReadings(readings)).toEqual({ ok: true, readings })
  },
)

test.each([
  ['{', '', /not JSON/],
  ['[]', '', /an object is wanted/],
  ['{}', 'method', /is missing: one of roll, four-run, vector/],
  ['{"method":"spin"}', 'method', /none of roll, four-run, vector/],
  ['{"method":"roll","method":"roll","rests_deg":[1]}', 'method', /twice/],
])('%s is no set of readings', (text, path, words) => {
  const result = parseReadings(text)
  if (result.ok) throw new Error('taken')
  expect(result.faults[0]!.path).toBe(path)
  expect(result.faults[0]!.message).toMatch(words)
})

test.each([
  [{ ...roll, rests_deg: [] }, 'rests_deg', /at least 1/],
  [{ ...roll, rests_deg: ['x'] }, 'rests_deg[0]', /must be a number/],
  [{ ...roll, hold: [{ ...roll.hold[0], side: 45 }] }, 'hold[0].side', /must be 90 or -90/],
  [{ ...roll, hold: [{ ...roll.hold[0], down_g: 21 }] }, 'hold[0].down_g', /must be at most up_g/],
  [{ ...roll, hold: [{ ...roll.hold[0], radius_mm: 0 }] }, 'hold[0].radius_mm', /more than 0/],
  [{ ...roll, rpm: 3 }, 'rpm', /not a known field/],
  [{ ...fourRun, first: 0 }, 'first', /more than 0/],
  [{ ...fourRun, trials: fourRun.trials.slice(1) }, 'trials', /at least 3/],
  [
    { ...fourRun, trials: [...fourRun.trials, { ...trial, amplitude: -1 }] },
    'trials[3].amplitude',
    /at least 0/,
  ],
  [{ ...vector, rpm: undefined }, 'rpm', /is missing/],
  [
    { ...vector, trial: { ...vector.trial, phase_deg: null } },
    'trial.phase_deg',
    /must be a number, but is null/,
  ],
])('%j', (readings, path, words) => {
  const result = checkReadings(readings)
  if (result.ok) throw new Error('taken')
  expect(result.faults[0]!.path).toBe(path)
  expect(result.faults[0]!.message).toMatch(words)
})
