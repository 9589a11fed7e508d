import { describe, expect, it } from 'vitest'
import { clipTo, holds } from '../../../src-core/drawing/template/clip.ts'
import { plateTemplate } from '../../../src-core/drawing/template/plateTemplate.ts'
import { tilePlate } from '../../../src-core/drawing/template/tiles.ts'
import type { Drawing, PlainPrimitive } from '../../../src-core/drawing/model/model.ts'
import { plainPrimitives } from '../../../src-core/drawing/model/plain.ts'
import { circle, line, text } from '../../../src-core/drawing/model/primitives.ts'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { checkSum } from '../../../src-core/job/checkSum.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { bracketJob } from '../../helpers/goldenSheet.ts'
import { jobWith, shelfExample } from '../../helpers/jobs.ts'
import { lettering, outside, overlaps, struckThrough } from '../../helpers/sheetText.ts'

const job = bracketJob()
const sheets = plateTemplate(job, 'op10', 'A4')

/** Centres of the small circles to prick through, sheet mm. */
const pricks = (drawing: Drawing) =>
  plainPrimitives(drawing).flatMap((p) =>
    p.kind === 'circle' && p.layer === 'mark' && p.radius === 2 ? [p.centre] : [],
  )

describe('tilePlate', () => {
  it('takes the fewest sheets, covers the plate, and keeps the axis off the cuts', () => {
    for (const [reach, name] of [
      [158, 'A4'],
      [80, 'A4'],
      [158, 'A3'],
      [300, 'ANSI-A'],
    ] as const) {
      const { tile, columns, rows, origin } = tilePlate(reach, name)
      const width = tile.x1 - tile.x0
      const height = tile.y1 - tile.y0
      expect(origin.x).toBeLessThanOrEqual(-reach)
      expect(origin.y).toBeLessThanOrEqual(-reach)
      expect(origin.x + columns * width).toBeGreaterThanOrEqual(reach)
      expect(origin.y + rows * height).toBeGreaterThanOrEqual(reach)
      // From the axis to the nearest cut.
      const fromCut = (start: number, size: number) => {
        const along = ((-start % size) + size) % size
        return Math.min(along, size - along)
      }
      expect(fromCut(origin.x, width)).toBeGreaterThan(10)
      expect(fromCut(origin.y, height)).toBeGreaterThan(10)
    }
    expect(tilePlate(80, 'A4')).toMatchObject({ columns: 1, rows: 1 })
  })

  it('refuses a plate that would take a ream', () => {
    expect(() => tilePlate(5000, 'A4')).toThrow(RangeError)
    expect(() => plateTemplate(jobWith({ plate: { diameter: 1e5 } }), 'op10')).toThrow(/sheets of A4/)
  })
})

describe('clipTo', () => {
  const area = { x0: 0, y0: 0, x1: 10, y1: 10 }

  it('keeps what is within, cuts what crosses, drops what is outside', () => {
    const within = line('outline', { x: 1, y: 1 }, { x: 9, y: 9 })
    const [kept, cut, ...rest] = clipTo(
      [
        within,
        line('outline', { x: 5, y: 5 }, { x: 15, y: 5 }),
        line('outline', { x: 11, y: 0 }, { x: 11, y: 9 }),
      ],
      area,
    )
    expect(kept).toBe(within)
    expect((cut as Extract<PlainPrimitive, { kind: 'path' }>).steps).toEqual([
      { to: 'move', x: 5, y: 5 },
      { to: 'line', x: 10, y: 5 },
    ])
    expect(rest).toEqual([])
  })

  it('cuts a circle into the arc within, on its own radius', () => {
    const [arc] = clipTo([circle('outline', { x: 0, y: 0 }, 8)], area)
    if (arc?.kind !== 'path') expect.fail('an arc is a path')
    for (const s of arc.steps) {
      if (s.to === 'close') expect.fail('a cut arc is open')
      expect(Math.abs(Math.hypot(s.x, s.y) - 8)).toBeLessThan(0.01)
    }
  })

  it('drops text whose place is outside', () => {
    expect(clipTo([text({ x: 11, y: 5 }, 'out', 3), text({ x: 5, y: 5 }, 'in', 3)], area)).toHaveLength(1)
  })
})

describe('the template of the bracket on A4', () => {
  const tiling = tilePlate(job.plate.diameter / 2 + 8, 'A4')
  const width = tiling.tile.x1 - tiling.tile.x0
  const height = tiling.tile.y1 - tiling.tile.y0
  /** Sheet place to plate frame, by the tile's row and column. */
  const onPlate = (p: { x: number; y: number }, i: number) => ({
    x: p.x - tiling.tile.x0 + tiling.origin.x + (i % tiling.columns) * width,
    y: p.y - tiling.tile.y0 + tiling.origin.y + (tiling.rows - 1 - Math.floor(i / tiling.columns)) * height,
  })

  it('is four upright sheets', () => {
    expect(sheets).toHaveLength(4)
    for (const s of sheets) expect([s.width, s.height]).toEqual([210, 297])
  })

  it('has axis, bores and stations at full size where the setup has them', () => {
    const found = sheets.flatMap((s, i) => pricks(s).map((p) => onPlate(p, i)))
    const mounted = mountSetup(job, 'op10')
    const wanted = [{ x: 0, y: 0 }, ...mounted.pieces.map((p) => p.at)]
    for (const w of wanted)
      expect(Math.min(...found.map((p) => Math.hypot(p.x - w.x, p.y - w.y)))).toBeLessThan(1e-9)
    expect(found).toHaveLength(wanted.length)
  })

  it('is pricked where an angle plate and its bolts go, and not for what stands on its shelf', () => {
    const shelf = shelfExample('bearing-block')
    const drawn = plateTemplate(shelf, 'op20')
    const mounted = mountSetup(shelf, 'op20')
    const [, b1, b2] = mounted.pieces
    expect([b1!.item.kind, b2!.item.kind, b1!.shelf, b2!.shelf]).toEqual(['bolt', 'bolt', 'A1', 'A1'])
    // The axis, the angle plate with its four bolts, two weights.
    expect(drawn.flatMap(pricks)).toHaveLength(1 + 1 + 4 + 2)
    const words = drawn.flatMap(lettering).map((t) => t.text)
    expect(words.filter((t) => t.endsWith(' bolt'))).toEqual([])
    expect(words).toContain('1 angle plate')
  })

  it('shows the edge of the next sheet, line for line, where that will cover it', () => {
    const { tile } = tiling
    /** Where lines of the plate cross a line up the sheet, plate frame. */
    const crossings = (i: number, x: number) =>
      plainPrimitives(sheets[i]!)
        .filter((p) => ['outline', 'hidden', 'phantom'].includes(p.layer))
        .flatMap((p) => {
          if (p.kind !== 'path') return []
          return p.steps.flatMap((b, k) => {
            const a = p.steps[k - 1]
            if (!a || a.to === 'close' || b.to !== 'line' || a.x > x === b.x > x) return []
            const t = (x - a.x) / (b.x - a.x)
            return [onPlate({ x, y: a.y + t * (b.y - a.y) }, i).y]
          })
        })
        .filter((y) => y > 0)
        .sort((a, b) => a - b)
    for (const beyond of [2, 5, 7.5]) {
      const strip = crossings(0, tile.x1 + beyond)
      expect(strip.length).toBeGreaterThan(0)
      const next = crossings(1, tile.x0 + beyond)
      expect(next).toHaveLength(strip.length)
      for (const [k, y] of strip.entries()) expect(next[k]!).toBeCloseTo(y, 1)
    }
    expect(crossings(0, tile.x1 + 8.2)).toEqual([])
    expect(crossings(1, tile.x1 + 2)).toEqual([])
  })

  it('says what it is, of which revision, and where each sheet lies, and cuts nothing of it', () => {
    const long =
      'EV-0522/left-hand/forged/customer-specification-88172-rev-C-second-operation-of-three-of-the-lot'
    const revised = {
      ...job,
      partNumber: long,
      documentNumber: 'D-9',
      revisions: [{ mark: 'C', date: '', text: '' }],
    }
    const drawn = plateTemplate(revised, 'op10', 'A4', { date: '2026-04-01' })
    for (const [i, s] of drawn.entries()) {
      const texts = lettering(s)
      const all = texts.map((t) => t.text).join('')
      expect(all).toContain(long)
      expect(all).toContain(
        `Document D-9, revision C, 2026-04-01, check sum ${checkSum(revised, revised.setups[0]!)}`,
      )
      expect(all).toContain(`${i + 1} of 4`)
      const map = texts.filter((t) => /^[AB][12]$/.test(t.text))
      expect(map.map((t) => t.text)).toEqual(['A1', 'A2', 'B1', 'B2'])
      expect(map.map((t) => t.primitive.bold ?? false)).toEqual([0, 1, 2, 3].map((k) => k === i))
      expect(overlaps(texts)).toEqual([])
    }
    expect(plateTemplate(revised, 'op10', 'A4', { revision: 'D' })[0]!).not.toEqual(drawn[0])
  })

  it('names the holes of a drilled plate and marks where angles begin', () => {
    const holes = [1, 2, 3, 4, 5, 6].map((k) => ({
      ...{ id: `H${k}`, x: 100 * Math.cos(k), y: 100 * Math.sin(k), diameter: 13 },
    }))
    const drilled = jobWith({ plate: { slots: [], holes }, setups: [{ hardware: [] }] })
    const drawn = plateTemplate(drilled, drilled.setups[0]!.id)
    const all = drawn.flatMap(lettering).map((t) => t.text)
    for (const { id } of holes) expect(all.filter((t) => t === id)).toEqual([id])
    const marks = drawn.flatMap(plainPrimitives).filter((p) => p.kind === 'path' && p.fill === 'solid')
    expect(marks.length).toBeGreaterThan(0)
  })

  it('draws the rim once, on its radius', () => {
    const points = sheets.flatMap((s, i) =>
      plainPrimitives(s).flatMap((p) =>
        p.kind === 'path' && p.layer === 'outline'
          ? p.steps.flatMap((step) => (step.to === 'close' ? [] : [onPlate(step, i)]))
          : [],
      ),
    )
    expect(points.length).toBeGreaterThan(100)
    for (const p of points) expect(Math.abs(Math.hypot(p.x, p.y) - 150)).toBeLessThan(0.01)
  })

  it('has check lines of 4 in for a job in inches', () => {
    for (const s of plateTemplate({ ...job, displayUnits: 'in' }, 'op10')) {
      const words = lettering(s).map((t) => t.text)
      expect(words).toEqual(expect.arrayContaining(['4 in: check the print', '4 in']))
      expect(words.join(' ')).not.toContain('100 mm')
      expect(
        plainPrimitives(s).flatMap((p) => {
          if (p.kind !== 'path' || p.steps.length !== 2) return []
          const [a, b] = p.steps
          if (a!.to === 'close' || b!.to === 'close') return []
          const long = [b!.x - a!.x, b!.y - a!.y]
          return long.some((d) => Math.abs(d - 101.6) < 1e-9) && long.includes(0) ? [1] : []
        }),
      ).toHaveLength(2)
    }
  })

  it('has a check line each way on every sheet, and names the neighbours', () => {
    for (const s of sheets) {
      const printed = { x0: 10, y0: 10, x1: s.width - 10, y1: s.height - 10 }
      for (const p of plainPrimitives(s))
        if (p.kind === 'path')
          for (const step of p.steps)
            if (step.to !== 'close') expect([holds(printed, step), step], s.title).toEqual([true, step])
      const long = plainPrimitives(s).flatMap((p) => {
        if (p.kind !== 'path' || p.steps.length !== 2) return []
        const [a, b] = p.steps
        if (a!.to === 'close' || b!.to === 'close') return []
        const [dx, dy] = [Math.abs(b!.x - a!.x), Math.abs(b!.y - a!.y)]
        return Math.abs(Math.hypot(dx, dy) - 100) < 1e-9 ? [dx > dy ? 'across' : 'up'] : []
      })
      expect(long.sort()).toEqual(['across', 'up'])
    }
    const names = sheets.map((s) =>
      lettering(s)
        .map((t) => t.text)
        .filter((t) => t.startsWith('joins'))
        .sort(),
    )
    expect(names).toEqual([
      ['joins A2', 'joins B1'],
      ['joins A1', 'joins B2'],
      ['joins A1', 'joins B2'],
      ['joins A2', 'joins B1'],
    ])
  })

  it('names every slot, bore and item, none over another, none cut off', () => {
    const all = sheets.flatMap(lettering).map((t) => t.text)
    for (const slot of job.plate.slots) expect(all).toContain(slot.id)
    expect(all).toContain('bore A')
    expect(all.filter((t) => /^\d strap clamp M12$/.test(t))).toHaveLength(4)
    for (const s of sheets) {
      const texts = lettering(s)
      expect(overlaps(texts)).toEqual([])
      expect(outside(texts, { x0: 10, y0: 10, x1: 200, y1: 287 })).toEqual([])
      expect(struckThrough(s, texts)).toEqual([])
    }
  })

  it('has its map clear of the check line, however many sheets there are side by side', () => {
    const wide = plateTemplate(jobWith({ plate: { diameter: 400 } }), 'op10', 'A4')
    expect(wide.map((s) => s.title.slice(-2))).toContain('A3')
    for (const s of wide) {
      const texts = lettering(s)
      expect(overlaps(texts)).toEqual([])
      expect(struckThrough(s, texts)).toEqual([])
    }
  })

  it('needs no analysis, and comes out the same twice', () => {
    analyse(job, 'op10')
    expect(plateTemplate(job, 'op10', 'A4')).toEqual(sheets)
    expect(() => plateTemplate(job, 'op99')).toThrow(RangeError)
  })
})
