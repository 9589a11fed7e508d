import { describe, expect, it } from 'vitest'
import { checkJob, parseJob } from '../../../src-core/job/parse.ts'
import type { Job, Photograph } from '../../../src-core/job/schema.ts'
import { serialiseJob } from '../../../src-core/job/serialise.ts'
import { exampleJob } from '../../helpers/jobs.ts'
import { makeJpeg, makePng } from '../../helpers/pictures.ts'

const job = exampleJob('flat-link')
const tie = (u: number, v: number, x: number, y: number) => ({ u, v, x, y })
const photograph = (bytes: Buffer, more: Partial<Photograph['picture']> = {}): Photograph => ({
  picture: {
    name: 'p.png',
    type: 'image/png',
    width: 20,
    height: 10,
    data: bytes.toString('base64'),
    ...more,
  },
  ties: [tie(0, 0, 0, 0), tie(10, 0, 50, 0)],
  opacity: 0.6,
  locked: true,
})
const withPhotograph = (p: Photograph): Job => ({ ...job, part: { ...job.part, photograph: p } })
const faults = (j: Job) => {
  const read = checkJob(j)
  return read.ok ? [] : read.faults.map((f) => `${f.path} ${f.message}`)
}

describe('a photograph in a job', () => {
  it('is kept whole through writing and reading', () => {
    const kept = withPhotograph(photograph(makePng(20, 10)))
    const read = parseJob(serialiseJob(kept))
    expect(read).toEqual({ ok: true, job: kept })
  })

  it('whose data is no picture, of another kind or of another size is a fault at its field', () => {
    const png = makePng(20, 10)
    const of = (p: Photograph) => faults(withPhotograph(p))
    expect(of(photograph(Buffer.from('no picture at all')))).toEqual([
      'part.photograph.picture.data is no picture: it is neither a PNG nor a JPEG (byte 0)',
    ])
    expect(of(photograph(png.subarray(0, 50)))[0]).toMatch(
      /^part.photograph.picture.data is no picture: .*\(byte/,
    )
    expect(of(photograph(png, { type: 'image/jpeg' }))).toEqual([
      'part.photograph.picture.type is image/jpeg, but the picture is image/png',
    ])
    expect(of(photograph(png, { width: 21 }))).toEqual([
      'part.photograph.picture.width is 21, but the picture is 20 pixels across',
    ])
    expect(of(photograph(png, { height: 1 }))[0]).toMatch(/^part.photograph.picture.height is 1, but/)
  })

  it('lying on its side is stated as it is shown', () => {
    const jpeg = makeJpeg(24, 16, 6)
    const said = { type: 'image/jpeg' as const, width: 16, height: 24 }
    expect(faults(withPhotograph(photograph(jpeg, said)))).toEqual([])
    expect(faults(withPhotograph(photograph(jpeg, { ...said, width: 24 })))[0]).toMatch(/picture.width is 24/)
  })

  it('that would unpack to more than memory should hold is a fault', () => {
    const vast = makePng(2, 2)
    vast.writeUInt32BE(12_000, 16)
    vast.writeUInt32BE(12_000, 20)
    expect(faults(withPhotograph(photograph(vast, { width: 12_000, height: 12_000 })))).toEqual([
      'part.photograph.picture.data unpacks to more than 40 million pixels',
    ])
  })

  it('whose ties place nothing is a fault', () => {
    const same = { ...photograph(makePng(20, 10)), ties: [tie(1, 1, 0, 0), tie(1, 1, 5, 0)] as const }
    expect(faults(withPhotograph(same))).toEqual([
      'part.photograph.ties 1 and 2 are the same point of the picture',
    ])
  })

  it('of a run is looked at too', () => {
    const { picture } = photograph(makePng(20, 10), { width: 30 })
    const run = { id: 'r1', date: '2026-03-01', setup: 'op10', by: '', speed: null, trimmed: '', remarks: '' }
    const found = faults({ ...job, runs: [run, { ...run, id: 'r2', photograph: picture }] })
    expect(found).toEqual(['runs[1].photograph.width is 30, but the picture is 20 pixels across'])
  })
})
