import { describe, expect, it } from 'vitest'
import { parseJob } from '../../../src-core/job/parse.ts'
import { boreCut, block, bore, disc, exampleText, jobWith, partOf, piece } from '../../helpers/jobs.ts'

/** A sound document with some of it changed: `edit` gets a fresh copy to spoil. */
type Loose = Record<string, any> // eslint-disable-line @typescript-eslint/no-explicit-any
function faultsAfter(edit: (document: Loose) => void, from = exampleText('flat-link')): [string, string][] {
  const document = JSON.parse(from) as Loose
  edit(document)
  const result = parseJob(JSON.stringify(document))
  return result.ok ? [] : result.faults.map((f) => [f.path, f.message])
}
const faultsOf = (job: unknown): [string, string][] => {
  const result = parseJob(JSON.stringify(job))
  return result.ok ? [] : result.faults.map((f) => [f.path, f.message])
}

describe('parseJob', () => {
  it('reads the examples, also with a byte-order mark', () => {
    expect(parseJob(exampleText('bearing-bracket')).ok).toBe(true)
    expect(parseJob('\uFEFF' + exampleText('flat-link')).ok).toBe(true)
  })

  it('names two faults of one file with their paths', () => {
    const found = faultsAfter((d) => {
      d['setups'][0].cut.speed = -3
      d['plate'].mass = 'heavy'
    })
    expect(found).toEqual([
      ['plate.mass', 'must be a number, but is "heavy"'],
      ['setups[0].cuts[0].speed', 'must be more than 0, but is -3'],
    ])
  })

  it('names every missing field', () => {
    const found = faultsAfter((d) => {
      delete d['lathe'].gap
      delete d['plate'].slots[1].width
      delete d['setups'][1].criterion
    })
    expect(found).toEqual([
      ['lathe.gap', 'is missing'],
      ['plate.slots[1].width', 'is missing'],
      ['setups[1].criterion', 'is missing'],
    ])
  })

  it('names unknown fields, also within lists and unions', () => {
    const found = faultsAfter((d) => {
      d['colour'] = 'blue'
      d['lathe'].swing = 1
      d['setups'][0].hardware[0].at = { slot: 'S1', radius: 70, angle: 3 }
    })
    expect(found.map(([path]) => path).sort()).toEqual([
      'colour',
      'lathe.swing',
      'setups[0].hardware[0].at.angle',
    ])
    for (const [, message] of found) expect(message).toBe('is not a known field')
  })

  it('lets out what a file may leave out, and takes the given', () => {
    const found = faultsAfter((d) => {
      delete d['partNumber']
      delete d['notes']
      for (const b of d['part'].bodies) for (const p of b.outline) delete p.bulge
      delete d['part'].bodies[0].name
      delete d['setups'][0].cut
      delete d['plate'].residual
      delete d['setups'][0].hardware[0].press
    })
    expect(found.filter(([, m]) => m === 'is missing')).toEqual([])
  })

  it('speaks of the branch that was meant where a field has several forms', () => {
    expect(faultsAfter((d) => (d['setups'][0].hardware[0].at = { slot: 'S1' }))).toEqual([
      ['setups[0].hardware[0].at.radius', 'is missing'],
    ])
    expect(faultsAfter((d) => (d['setups'][0].centre = { x: 3 }))).toEqual([
      ['setups[0].centre.y', 'is missing'],
    ])
    const [rect] = faultsAfter((d) => (d['stock'][0].footprint = { rect: [10] }))
    expect(rect![0]).toMatch(/^stock\[0\]\.footprint\.rect/)
  })

  it('refuses other formats, versions it does not know, and says that it left the file alone', () => {
    expect(faultsAfter((d) => (d['version'] = 5))).toEqual([
      ['version', '5 is newer than this program knows (4); the file was left untouched'],
    ])
    for (const version of [0, -1, 1.5, '1', null, undefined, [], true])
      expect(faultsAfter((d) => (d['version'] = version))).toEqual([
        ['version', 'is not a whole number from 1'],
      ])
    expect(faultsAfter((d) => (d['format'] = 'something-else'))).toEqual([
      ['format', 'is not "evenswing-job"'],
    ])
    for (const text of ['[]', 'null', '3', '"evenswing-job"'])
      expect(parseJob(text)).toEqual({
        ok: false,
        faults: [{ path: '', message: 'is not a job: an object is wanted' }],
      })
  })

  it('says where JSON breaks off, by line and column', () => {
    const lines = exampleText('flat-link').split('\n')
    lines[4] = '  "notes": ?,'
    const result = parseJob(lines.join('\n'))
    expect(result.ok).toBe(false)
    if (!result.ok) expect(result.faults[0]!.message).toMatch(/^is not JSON: /)
    const cut = parseJob(exampleText('flat-link').slice(0, 3000))
    if (cut.ok) expect.fail('half a file was read')
    expect(cut.faults).toHaveLength(1)
    expect(cut.faults[0]!.message).toMatch(/line \d+ column \d+|ends too early/)
  })
})

describe('faults that no schema sees', () => {
  it('ids used twice', () => {
    const found = faultsOf({
      ...jobWith({
        part: partOf([disc('a', { x: 0, y: 0 }, 50, 9), disc('a', { x: 90, y: 0 }, 50, 9)]),
        setup: { hardware: [piece('w', 1, { x: 0, y: 100 }), piece('w', 1, { x: 0, y: -100 })] },
      }),
    })
    expect(found).toEqual([
      ['part.bodies[1].id', '"a" is used already by part.bodies[0]'],
      ['setups[0].hardware[1].id', '"w" is used already by setups[0].hardware[0]'],
    ])
  })

  it('names that point nowhere', () => {
    const found = faultsOf(
      jobWith({
        setup: {
          centre: { bore: 'Z' },
          cuts: [boreCut('Y')],
          hardware: [piece('a', 1, { slot: 'S9', radius: 70 }), piece('b', 1, { hole: 'H9' })],
        },
      }),
    )
    expect(found).toEqual([
      ['setups[0].centre.bore', 'there is no bore "Z"'],
      ['setups[0].cuts[0].bore', 'there is no bore "Y"'],
      ['setups[0].hardware[0].at.slot', 'there is no slot "S9"'],
      ['setups[0].hardware[1].at.hole', 'there is no hole "H9"'],
    ])
  })

  it('sizes that cannot be', () => {
    const slot = { id: 'S1', angle: 0, from: 80, to: 80, width: 14, kind: 'tee' as const }
    const job = jobWith({
      plate: { bore: 300, slots: [slot, { ...slot, id: 'S2', from: 90, to: 151 }] },
      lathe: { gap: { swing: 200, width: 100, open: true } },
      part: partOf([disc('a', { x: 0, y: 0 }, 90, 9)], [bore('A', { x: 0, y: 0 }, 20, { start: 21 })]),
    })
    expect(faultsOf(job).map(([path]) => path)).toEqual([
      'plate.bore',
      'lathe.gap.swing',
      'plate.slots[0].to',
      'plate.slots[1].to',
      'part.bores[0].start',
    ])
    const hollow = partOf([disc('a', { x: 0, y: 0 }, 90, 9, { effect: 'removes' })])
    expect(faultsOf(jobWith({ part: hollow }))[0]).toEqual(['part.bodies', 'has no body that adds material'])
  })

  it('outlines and footprints, each with ring, vertex and place', () => {
    const bow = [
      { x: 0, y: 0 },
      { x: 40, y: 40 },
      { x: 40, y: 0 },
      { x: 10, y: 30 },
    ]
    const body = block('a', { x: 0, y: 0 }, [60, 60, 5], { holes: [[{ x: 1, y: 1 }]] })
    const job = jobWith({
      part: partOf([body, block('b', { x: 0, y: 0 }, [9, 9, 9], { outline: bow })]),
      setup: { hardware: [piece('w', 1, { x: 0, y: 100 }, { footprint: { outline: bow } })] },
    })
    expect(faultsOf(job)).toEqual([
      ['part.bodies[0].holes[0][0]', expect.stringContaining('needs three distinct vertices')],
      ['part.bodies[1].outline[0]', 'crosses or touches itself at x 20, y 20 mm'],
      ['setups[0].hardware[0].footprint.outline[0]', 'crosses or touches itself at x 20, y 20 mm'],
    ])
  })
})
