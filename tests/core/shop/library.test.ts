import type { Box } from '../../../src-core/job/schema.ts'
import { describe, expect, it } from 'vitest'
import { parseJob } from '../../../src-core/job/parse.ts'
import { serialiseJob } from '../../../src-core/job/serialise.ts'
import { parseLibrary, serialiseLibrary } from '../../../src-core/shop/parse.ts'
import { EMPTY_LIBRARY, type Library } from '../../../src-core/shop/schema.ts'
import { collect, mergeLibraries, offers } from '../../../src-core/shop/use.ts'
import { exampleJob } from '../../helpers/jobs.ts'

type Loose = Record<string, any> // eslint-disable-line @typescript-eslint/no-explicit-any

const link = exampleJob('flat-link')
const { library: shop, added } = collect(link, EMPTY_LIBRARY)

describe('collect', () => {
  it('takes every named thing of a job once', () => {
    expect(added).toBeGreaterThan(4)
    expect(shop.lathes.map((l) => l.name)).toEqual([link.lathe.name])
    expect(new Set(shop.hardware.map((h) => h.name)).size).toBe(shop.hardware.length)
    expect(collect(link, shop)).toEqual({ library: shop, added: 0 })
  })
  it('keeps no place on a plate', () => {
    expect(JSON.stringify(shop.hardware)).not.toMatch(/"at"|"facing"|"nose"/)
  })
})

describe('offers', () => {
  it('offers nothing where the job holds what the library holds', () => {
    expect(offers(link, shop)).toEqual([])
  })
  it('offers what differs, changes nothing by itself, and the taken job is sound and satisfied', () => {
    const newer: Library = {
      ...shop,
      lathes: shop.lathes.map((l) => ({ ...l, value: { ...l.value, swingOverBed: 350 } })),
      hardware: shop.hardware.map((h) => ({ ...h, value: { ...h.value, mass: h.value.mass! + 0.1 } })),
      materials: shop.materials.map((m) => ({ ...m, value: { density: 7800 } })),
      weights: shop.weights.map((w) => ({ ...w, value: { ...w.value, count: w.value.count + 1 } })),
      plates: shop.plates.map((p) => ({ ...p, value: { ...p.value, thickness: 33 } })),
    }
    const found = offers(link, newer)
    expect(new Set(found.map((o) => o.section))).toEqual(
      new Set(['lathes', 'plates', 'materials', 'weights', 'hardware']),
    )
    const taken = found.reduce((job, offer) => offer.take(job), link)
    expect(taken.lathe.swingOverBed).toBe(350)
    expect(link.lathe.swingOverBed).toBe(330)
    expect(offers(taken, newer)).toEqual([])
    expect(parseJob(serialiseJob(taken)).ok).toBe(true)
    // Where a piece stands, and where its nose presses, is the job's own.
    const [before, after] = [link, taken].map((j) => j.setups[0]!.hardware[0]! as Box)
    expect(after!.at).toEqual(before!.at)
    expect(after!.press?.nose).toEqual(before!.press?.nose)
    expect(after!.mass).toBeCloseTo(before!.mass + 0.1, 12)
  })
})

describe('a library file', () => {
  it('comes back as it was, the same bytes each time', () => {
    const text = serialiseLibrary(shop)
    const read = parseLibrary(text)
    expect(read).toEqual({ ok: true, library: shop })
    expect(serialiseLibrary(shop)).toBe(text)
  })
  it('is refused with place and reason', () => {
    const faults = (edit: (library: Loose) => unknown) => {
      const copy = JSON.parse(serialiseLibrary(shop)) as Loose
      edit(copy)
      const read = parseLibrary(JSON.stringify(copy))
      return read.ok ? [] : read.faults.map((f) => `${f.path} ${f.message}`)
    }
    expect(faults((l) => (l['version'] = 5))[0]).toMatch(/^version 5 is newer .*left untouched$/)
    expect(faults((l) => (l['version'] = 1.5))[0]).toBe('version is not a whole number from 1')
    expect(faults((l) => (l['format'] = 'x'))[0]).toMatch(/^format is not/)
    expect(faults((l) => (l['lathes'][0].colour = 1))[0]).toBe('lathes[0].colour is not a known field')
    expect(faults((l) => l['hardware'].push(l['hardware'][0]))[0]).toMatch(/is used already$/)
    expect(parseLibrary('{').ok).toBe(false)
  })
})

describe('a library of an earlier version', () => {
  it('has its lathes lifted: a list of speeds becomes steps', () => {
    const { speeds, ...lathe } = shop.lathes[0]!.value
    const old = {
      ...(JSON.parse(serialiseLibrary(shop)) as Loose),
      version: 2,
      lathes: [{ ...shop.lathes[0], value: { ...lathe, spindleSpeeds: speeds.steps.map((s) => s.rpm) } }],
    }
    expect(parseLibrary(JSON.stringify(old))).toEqual({
      ok: true,
      library: { ...shop, lathes: [shop.lathes[0]] },
    })
  })
})

describe('mergeLibraries', () => {
  it('takes what comes under the same name, keeps the rest, and its ids stay its own', () => {
    const coming: Library = {
      ...EMPTY_LIBRARY,
      materials: [
        { id: 'mild-steel', name: 'mild steel', value: { density: 7860 } },
        { id: 'mild-steel', name: 'MILD steel', value: { density: 1 } },
      ],
    }
    const merged = mergeLibraries(shop, coming)
    expect(merged.lathes).toEqual(shop.lathes)
    expect(merged.materials).toEqual([
      { id: 'mild-steel', name: 'mild steel', value: { density: 7860 } },
      { id: 'mild-steel-2', name: 'MILD steel', value: { density: 1 } },
    ])
  })
})
