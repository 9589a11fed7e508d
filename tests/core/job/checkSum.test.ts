import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkSum, readCheckSum } from '../../../src-core/job/checkSum.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { serialiseJob } from '../../../src-core/job/serialise.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { described } from '../../helpers/walkJobs.ts'
import { randomJob } from '../../helpers/randomJob.ts'

const link = shippedJob('flat-link')
const first = (job: Job) => checkSum(job, job.setups[0]!)
const checkSums = (job: Job) => job.setups.map((setup) => checkSum(job, setup))

/** Another value of the same kind. */
const other = (value: unknown): unknown =>
  typeof value === 'number' ? value + 1 : typeof value === 'boolean' ? !value : `${String(value)}x`

/** Every leaf of a value, each changed by itself. */
function* changes(value: unknown, path = ''): Generator<{ path: string; value: unknown }> {
  if (value === null || typeof value !== 'object') {
    yield { path, value: other(value) }
    return
  }
  for (const [key, part] of Object.entries(value))
    for (const change of changes(part, `${path}.${key}`)) {
      const copy = (Array.isArray(value) ? [...value] : { ...value }) as Record<string, unknown>
      copy[key] = change.value
      yield { path: change.path, value: copy }
    }
}

/** The same by another road: sorted by JSON's own replacer, letters by one large number. */
function byHand(job: Job): string {
  const sorted = (value: unknown): string =>
    JSON.stringify(value, (key, v: unknown) => {
      if (key === 'photograph' || key === 'sheet') return undefined
      if (v === null || typeof v !== 'object' || Array.isArray(v)) return v
      const entries = Object.entries(v).filter(([, e]) => e !== null && e !== undefined)
      return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)))
    })
  const hash = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex')
  const [setup] = job.setups
  const used = setup!.hardware.flatMap((h) => (h.kind === 'weight' ? h.stack.map((s) => s.stock) : []))
  const weights = job.stock.filter((s) => used.includes(s.id)).map((s) => ({ ...s, count: undefined }))
  const part = { ...job.part, bodies: job.part.bodies.map((b) => hash(sorted(b))) }
  const digests = [job.lathe, job.plate, part, { setup, weights }].map((v) => hash(sorted(v)))
  let bits = BigInt(`0x${hash(digests.join(' '))}`) >> 206n
  let letters = ''
  for (let i = 0; i < 10; i++) {
    letters = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'.charAt(Number(bits & 31n)) + letters
    bits >>= 5n
  }
  return `${letters.slice(0, 5)}-${letters.slice(5)}`
}

describe('the check sum', () => {
  it('is what SHA-256 and base 32 make of lathe, plate, part and setup', () => {
    for (const name of ['flat-link', 'bearing-bracket'] as const)
      expect(first(shippedJob(name))).toBe(byHand(shippedJob(name)))
  })

  it.each(['lathe', 'plate', 'part'] as const)('tells every change of the %s', (group) => {
    const was = first(link)
    const found = [...changes(link[group])].map(({ path, value }) => ({
      path,
      sum: first({ ...link, [group]: value }),
    }))
    expect(found.length).toBeGreaterThan(15)
    expect(found.filter(({ sum }) => sum === was)).toEqual([])
    expect(new Set(found.map(({ sum }) => sum)).size).toBe(found.length)
  })

  it('tells every change of its setup and of the weights that it takes, and none of another setup', () => {
    const [op10, op20] = checkSums(link)
    for (const { path, value } of changes(link.setups[0])) {
      const job = { ...link, setups: [value as Job['setups'][number], link.setups[1]!] }
      expect(checkSum(job, job.setups[0]!), path).not.toBe(op10)
      expect(checkSum(job, job.setups[1]!), path).toBe(op20)
    }
    const taken = link.setups[0]!.hardware.flatMap((h) =>
      h.kind === 'weight' ? h.stack.map((s) => s.stock) : [],
    )
    expect(taken.length).toBeGreaterThan(0)
    const heavier = (ids: (id: string) => boolean) => ({
      ...link,
      stock: link.stock.map((s) => (ids(s.id) ? { ...s, mass: s.mass + 0.1 } : s)),
    })
    expect(first(heavier((id) => taken.includes(id)))).not.toBe(op10)
    expect(first(heavier((id) => !taken.includes(id)))).toBe(op10)
  })

  it('does not hang on what is written about a job, on how it is drawn, or on what was done', () => {
    const full = described(link)
    const told = { ...full, stock: link.stock, part: { ...link.part, photograph: full.part.photograph } }
    const renamed = { ...told, title: 'another', displayUnits: 'in' as const, uncertainty: { placing: 3 } }
    const fewer = { ...renamed, stock: link.stock.map((s) => ({ ...s, count: s.count + 1 })) }
    expect(checkSums(fewer)).toEqual(checkSums(link))
  })

  it('is the same after saving and opening, whatever order the keys came in', () => {
    const turned = (value: unknown): unknown =>
      value === null || typeof value !== 'object'
        ? value
        : Array.isArray(value)
          ? value.map(turned)
          : Object.fromEntries(
              Object.entries(value)
                .reverse()
                .map(([k, v]) => [k, turned(v)]),
            )
    fc.assert(
      fc.property(randomJob, (job) => {
        const read = parseJob(serialiseJob(job))
        if (!read.ok) return
        expect(checkSums(read.job)).toEqual(checkSums(job))
        expect(checkSums(turned(job) as Job)).toEqual(checkSums(job))
      }),
      { numRuns: 40 },
    )
  })
})

describe('a check sum as it was typed', () => {
  it.each(['v8mrw-r2px0', 'V8MRWR2PX0', ' v8mrw r2pxo ', 'V8MRW-R2PXO\n'])('%j is read', (typed) => {
    expect(readCheckSum(typed)).toBe('V8MRW-R2PX0')
  })
  it('reads what it writes, and I and L as 1', () => {
    for (const sum of checkSums(link)) expect(readCheckSum(sum)).toBe(sum)
    expect(readCheckSum('liil1-00000')).toBe('11111-00000')
  })
  it.each(['', 'V8MRW-R2PX', 'V8MRW-R2PX01', 'V8MRW-R2PXU', 'crank link', 'ÄÖÜÄÖÜÄÖÜÄ'])(
    '%j is none',
    (typed) => {
      expect(readCheckSum(typed)).toBeNull()
    },
  )
})
