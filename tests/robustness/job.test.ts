import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { LIMITS } from '../../src-core/job/schema.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { EXAMPLES, exampleText, SHELF_EXAMPLES, shippedText } from '../helpers/jobs.ts'
import { valueAt, withValue, type Place } from '../helpers/schemaFields.ts'

/** How many spoilt files each fuzz tries; set EVENSWING_FUZZ higher for a long run. */
const RUNS = Number(process.env['EVENSWING_FUZZ'] ?? 300)
const TEXTS = [...EXAMPLES.map(exampleText), ...SHELF_EXAMPLES.map(shippedText)]
const which = fc.nat(TEXTS.length - 1)

/** Whatever the text, a result comes back: a job that can be written and analysed, or faults in one line each. */
function expectAnswer(text: string): void {
  const result = parseJob(text)
  if (!result.ok) {
    expect(result.faults.length).toBeGreaterThan(0)
    expect(result.faults.length).toBeLessThan(5000)
    for (const { path, message } of result.faults) {
      expect(message).not.toBe('')
      expect(message).not.toMatch(/\n|undefined|\[object|NaN mm/)
      expect(path).not.toMatch(/\n/)
    }
    return
  }
  const again = parseJob(serialiseJob(result.job))
  expect(again).toEqual({ ok: true, job: withoutMinusNought(result.job) })
  for (const { id } of result.job.setups) {
    const { findings, speeds, terms } = analyse(result.job, id)
    for (const t of terms) expect(t.mass_kg, t.item).toBeGreaterThanOrEqual(0)
    for (const f of findings) expect(f.message).not.toMatch(/NaN|undefined|Infinity|\[object/)
    for (const s of speeds) expect(Number.isFinite(s.force_N)).toBe(true)
  }
}

const withoutMinusNought = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value), (_, v: unknown) => (Object.is(v, -0) ? 0 : v)) as T

/** Every place in a document, as a list of keys. */
function places(value: unknown, at: readonly PropertyKey[] = []): PropertyKey[][] {
  if (typeof value !== 'object' || value === null) return [[...at]]
  const keys = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value)
  return [[...at], ...keys.flatMap((k) => places((value as Record<PropertyKey, unknown>)[k], [...at, k]))]
}

const DOCUMENTS = TEXTS.map((text) => JSON.parse(text) as Record<string, unknown>)
const PLACES = DOCUMENTS.map((d) => places(d).filter((p) => p.length > 0))

const value = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    '',
    'x',
    0,
    -1,
    1,
    1e-300,
    1e300,
    -1e300,
    1e5,
    5e-324,
    [],
    {},
    [[]],
    'A',
  ),
  fc.constantFrom<unknown>('S1', 'op10', '__proto__', 'toString', [1, 2], { x: 1, y: 2 }, { circle: 1e-9 }),
  fc.double({ noDefaultInfinity: true, noNaN: true }),
  fc.double({ min: 0, max: 300, noNaN: true }),
  fc.integer({ min: -400, max: 400 }),
  fc.jsonValue({ maxDepth: 2 }),
)

type Mutation = { kind: 'set' | 'delete' | 'add' | 'copy'; where: number; value: unknown; key: string }
const mutation: fc.Arbitrary<Mutation> = fc.record({
  kind: fc.constantFrom('set', 'set', 'set', 'delete', 'add', 'copy'),
  where: fc.nat(),
  value,
  key: fc.constantFrom('id', 'x', 'bulge', 'extra', 'density', 'clamp', 'mesh', 'constructor', 'depth'),
})

function mutate(which: number, mutations: readonly Mutation[]): string {
  const document = structuredClone(DOCUMENTS[which]!)
  for (const m of mutations) {
    const path = PLACES[which]![m.where % PLACES[which]!.length]!
    let parent: unknown = document
    for (const key of path.slice(0, -1)) parent = (parent as Record<PropertyKey, unknown> | null)?.[key]
    if (typeof parent !== 'object' || parent === null) continue
    const target = parent as Record<PropertyKey, unknown>
    const last = path[path.length - 1]!
    if (m.kind === 'set') target[last] = m.value
    else if (m.kind === 'add') {
      // A list holds no keys in JSON; one called "constructor" would only break this test's own splice.
      if (!Array.isArray(parent)) target[m.key] = m.value
    } else if (m.kind === 'copy' && Array.isArray(parent)) parent.push(structuredClone(target[last]))
    else if (Array.isArray(parent)) parent.splice(Number(last), 1)
    else Reflect.deleteProperty(target, last)
  }
  return JSON.stringify(document)
}

describe('spoilt job files', () => {
  it('with values changed, dropped, added and doubled get an answer', () => {
    fc.assert(
      fc.property(which, fc.array(mutation, { minLength: 1, maxLength: 4 }), (which, mutations) => {
        expectAnswer(mutate(which, mutations))
      }),
      { numRuns: RUNS },
    )
  })

  it('with numbers nudged still analyse', () => {
    const nudge = fc.tuple(fc.nat(), fc.double({ min: -2, max: 2, noNaN: true }))
    fc.assert(
      fc.property(which, fc.array(nudge, { minLength: 1, maxLength: 6 }), (which, nudges) => {
        const document = structuredClone(DOCUMENTS[which]!)
        for (const [where, factor] of nudges) {
          const path = PLACES[which]![where % PLACES[which]!.length]!
          let parent: unknown = document
          for (const key of path.slice(0, -1)) parent = (parent as Record<PropertyKey, unknown>)[key]
          const target = parent as Record<PropertyKey, unknown>
          const last = path[path.length - 1]!
          if (typeof target[last] === 'number') target[last] = target[last] * factor
        }
        expectAnswer(JSON.stringify(document))
      }),
      { numRuns: RUNS },
    )
  })

  it('with characters changed, cut off or doubled get an answer', () => {
    const edit = fc.record({ at: fc.nat(), cut: fc.nat(40), put: fc.string({ maxLength: 8 }) })
    fc.assert(
      fc.property(which, fc.array(edit, { minLength: 1, maxLength: 3 }), fc.nat(9), (which, edits, end) => {
        let text = TEXTS[which]!
        for (const { at, cut, put } of edits) {
          const i = at % text.length
          text = text.slice(0, i) + put + text.slice(i + cut)
        }
        expectAnswer(end === 0 ? text.slice(0, text.length / 2) : text)
      }),
      { numRuns: RUNS },
    )
  })

  it('of any text at all get an answer', () => {
    fc.assert(fc.property(fc.oneof(fc.string(), fc.json()), expectAnswer), { numRuns: RUNS })
  })
})

describe('sizes that no thing has', () => {
  it('a foot without length, a hole without width, a machine without weight: figures stay figures', () => {
    const casting = shippedText('round-casting')
    const block = shippedText('bearing-block')
    const nought = (text: string, place: Place, value: number) => {
      const document: unknown = JSON.parse(text)
      expect(typeof valueAt(document, place)).toBe('number')
      const spoilt = JSON.stringify(withValue(document, place, value))
      expect(parseJob(spoilt).ok).toBe(true)
      return spoilt
    }
    expectAnswer(nought(casting, ['setups', 0, 'hardware', 0, 'foot', 'length'], 5e-324))
    expectAnswer(nought(block, ['lathe', 'mass'], 5e-324))
    expectAnswer(nought(block, ['part', 'bodies', 1, 'thickness'], 1e-12))
    expectAnswer(nought(block, ['part', 'bores', 0, 'y'], 100_000))
  })
})

describe('hostile job files', () => {
  it('keep a place on one line whatever their keys are', () => {
    const text = TEXTS[0]!.replace('"frictionCoefficient"', '"fric\\n\\u001btion"')
    const result = parseJob(text)
    expect(result.ok ? [] : result.faults.map((f) => f.path)).toContain('setups[0]."fric\\n\\u001btion"')
    expectAnswer(text)
  })

  it('with a feed too small to cut give a finite torque', () => {
    for (const name of EXAMPLES) expectAnswer(exampleText(name).replace(/"feed": [\d.]+/, '"feed": 5e-324'))
  })

  const text = TEXTS[0]!
  const withSwing = (raw: string) => text.replace(/"swingOverBed": [\d.]+/, `"swingOverBed": ${raw}`)
  const first = (t: string) => {
    const result = parseJob(t)
    return result.ok ? null : result.faults[0]!
  }

  it('have no number that is not finite, written out or as text', () => {
    expect(first(withSwing('1e400'))).toEqual({
      path: 'lathe.swingOverBed',
      message: 'must be a number, but is Infinity',
    })
    for (const raw of ['NaN', 'Infinity', '-Infinity', '0x10', '.5', '1_000'])
      expect(first(withSwing(raw))!.message).toMatch(/^is not JSON/)
    for (const raw of ['"NaN"', '"330"', 'null', '[330]', '{}'])
      expect(first(withSwing(raw))!.path).toBe('lathe.swingOverBed')
    expect(first(withSwing('1e308'))!.message).toMatch(/^must be at most 100000/)
  })

  it('do not reach any prototype', () => {
    const sly = text.replace('"swingOverBed"', '"__proto__": { "polluted": 1 }, "swingOverBed"')
    expect(first(sly)).toEqual({ path: 'lathe.__proto__', message: 'is not a known field' })
    expect(
      first(text.replace('"title"', '"constructor": { "prototype": { "polluted": 1 } }, "title"'))!.path,
    ).toBe('constructor')
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined()
    const named = text.replaceAll('"S1"', '"__proto__"').replaceAll('"A"', '"constructor"')
    expectAnswer(named)
    expect(parseJob(named).ok).toBe(true)
  })

  it('of endless lists and nests are refused quickly, with few words', () => {
    // eslint-disable-next-line @typescript-eslint/no-explicit-any
    const huge = (edit: (d: Record<string, any>) => void) => {
      const document = structuredClone(DOCUMENTS[0]!)
      edit(document)
      const result = parseJob(JSON.stringify(document))
      if (result.ok) expect.fail('it was read')
      expect(result.faults.length).toBeLessThan(50)
      return result.faults[0]!
    }
    const many = (n: number, v: unknown) => Array.from({ length: n }, () => v)
    expect(huge((d) => (d['part'].bodies[0].outline = many(300_000, {})))).toEqual({
      path: 'part.bodies[0].outline',
      message: `may have at most ${LIMITS.verticesPerRing} entries`,
    })
    expect(huge((d) => (d['lathe'].spindleSpeeds = many(500_000, -1))).path).toBe('lathe.speeds.steps')
    expect(huge((d) => (d['setups'][0].hardware = many(100_000, null))).path).toBe('setups[0].hardware')
    expect(huge((d) => (d['part'].bodies[0].holes = many(100_000, []))).path).toBe('part.bodies[0].holes')
    expect(huge((d) => (d['title'] = 'x'.repeat(1e6))).message).toMatch(/^may have at most 20000 characters/)
    const deep = '['.repeat(200_000) + ']'.repeat(200_000)
    expect(first(deep)!.message).toMatch(/an object is wanted/)
    expect(first(text.replace(/"title": "[^"]*"/, `"title": ${deep}`))!.path).toBe('title')
    const nested = '{"at":'.repeat(100_000) + '1' + '}'.repeat(100_000)
    expect(first(text.replace(/"at": \{[^}]*\}/, `"at": ${nested}`))!.path).toMatch(
      /^setups\[0\]\.hardware\[0\]\.at/,
    )
  })

  it('that fill every limit with sound outlines still get an answer', () => {
    const document = structuredClone(DOCUMENTS[0]!) as Record<string, any> // eslint-disable-line @typescript-eslint/no-explicit-any
    const n = LIMITS.verticesPerRing
    document['part'].bodies[0].holes = []
    document['part'].bodies[0].outline = Array.from({ length: n }, (_, i) => ({
      x: 200 * Math.cos((i / n) * 2 * Math.PI),
      y: 200 * Math.sin((i / n) * 2 * Math.PI),
    }))
    expectAnswer(JSON.stringify(document))
  })
})
