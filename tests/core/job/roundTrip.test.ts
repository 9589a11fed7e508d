import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { jobJsonSchema } from '../../../src-core/job/jsonSchema.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import { serialiseJob } from '../../../src-core/job/serialise.ts'
import {
  EXAMPLES,
  deepFreeze,
  exampleJob,
  exampleText,
  jobWith,
  largeJob,
  shippedJob,
  shippedText,
  soundJob,
  steps,
} from '../../helpers/jobs.ts'
import { randomJob } from '../../helpers/randomJob.ts'

describe('a job written and read again', () => {
  it('is the same job, to the last bit of every number', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const result = parseJob(serialiseJob(job))
        if (!result.ok) expect.fail(JSON.stringify(result.faults))
        expect(result.job).toStrictEqual(job)
      }),
      { numRuns: 200 },
    )
  })

  it('is the same text, byte for byte, whatever order its keys came in', () => {
    const shuffle = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(shuffle)
      if (typeof value !== 'object' || value === null) return value
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([k, v]) => [k, shuffle(v)]),
      )
    }
    fc.assert(
      fc.property(randomJob, (job) => {
        const text = serialiseJob(job)
        expect(serialiseJob(soundJob(text))).toBe(text)
        expect(serialiseJob(soundJob(JSON.stringify(shuffle(job))))).toBe(text)
      }),
    )
  })

  it('leaves frozen jobs alone', () => {
    for (const name of EXAMPLES) {
      const job = deepFreeze(exampleJob(name))
      expect(soundJob(serialiseJob(job))).toStrictEqual(job)
    }
    expect(() => serialiseJob(deepFreeze(largeJob()))).not.toThrow()
  })

  it('keeps awkward numbers and text', () => {
    const base = jobWith()
    const job = {
      ...base,
      title: 'Ø 42 H7 — “bore” \u2028 \\ " \n \u0000 😀',
      lathe: { ...base.lathe, speeds: steps(0.1 + 0.2, 1 / 3, 5e-324, 99_999.5) },
      plate: { ...base.plate, mass: 179_769.313486 },
    }
    expect(soundJob(serialiseJob(job))).toStrictEqual(job)
  })

  it('writes minus nought as nought', () => {
    const base = jobWith()
    const job = { ...base, setups: [{ ...base.setups[0]!, turn: -0 }] }
    expect(Object.is(soundJob(serialiseJob(job)).setups[0]!.turn, 0)).toBe(true)
  })
})

describe('the text', () => {
  it('is plain JSON that ends in one line feed, points on one line, no very long lines', () => {
    for (const job of [exampleJob('flat-link'), exampleJob('bearing-bracket'), largeJob()]) {
      const text = serialiseJob(job)
      expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(job)))
      expect(text.endsWith('}\n')).toBe(true)
      expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110)
      expect(text).toMatch(/\{ "x": -?[\d.]+, "y": -?[\d.]+, "bulge": -?[\d.]+ \}/)
      expect(text.startsWith('{\n  "format": "evenswing-job",\n  "version": 4,\n  "title"')).toBe(true)
    }
  })

  it('of the examples is what this program would write but for layout', () => {
    for (const name of EXAMPLES) {
      expect(JSON.parse(serialiseJob(shippedJob(name)))).toEqual(JSON.parse(shippedText(name)))
    }
  })
})

describe('the published JSON Schema', () => {
  it('is draft 2020-12, closed to unknown fields, and asks for what the parser asks for', () => {
    const schema = jobJsonSchema() as {
      $schema: string
      additionalProperties: boolean
      required: string[]
      properties: Record<string, { required?: string[]; additionalProperties?: boolean }>
    }
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
    expect(schema.additionalProperties).toBe(false)
    const document = JSON.parse(exampleText('flat-link')) as Record<string, unknown>
    for (const key of Object.keys(schema.properties)) {
      const without = Object.fromEntries(Object.entries(document).filter(([k]) => k !== key))
      const refused = !parseJob(JSON.stringify(without)).ok
      expect(schema.required.includes(key), key).toBe(refused)
    }
    expect(schema.properties['lathe']?.additionalProperties).toBe(false)
  })
})
