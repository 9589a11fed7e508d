import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { jobSheets } from '../../../src-core/drawing/sheet/jobSheets.ts'
import { PRECEDENCE } from '../../../src-core/words/cautions.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { Drawing, PlainPrimitive } from '../../../src-core/drawing/model/model.ts'
import { plainPrimitives } from '../../../src-core/drawing/model/plain.ts'
import { bracketAnalysis, bracketJob, bracketSheets } from '../../helpers/goldenSheet.ts'
import { exampleJob, shippedJob } from '../../helpers/jobs.ts'
import { sheetCases } from '../../helpers/sheetJobs.ts'
import { lettering } from '../../helpers/sheetText.ts'

const textsOf = (drawings: readonly Drawing[]): string[] => drawings.flatMap(lettering).map((t) => t.text)
const allText = (drawings: readonly Drawing[]): string => textsOf(drawings).join(' ')
const count = (drawings: readonly Drawing[], text: string) =>
  textsOf(drawings).filter((t) => t === text).length

const cases = sheetCases(20).map(({ job, options }) => ({
  job,
  drawings: job.setups.map((s) => setupSheet(job, s.id, analyse(job, s.id), options)),
}))

const isCheckLine =
  (long: number) =>
  (p: PlainPrimitive): boolean => {
    if (p.kind !== 'path' || p.steps.length !== 2) return false
    const [a, b] = p.steps
    return a!.to === 'move' && b!.to === 'line' && a!.y === b!.y && Math.abs(b!.x - a!.x - long) < 1e-9
  }

describe('every sheet', () => {
  it('is lettered no smaller than 2.5 mm', () => {
    for (const { drawings } of cases) {
      const least = Math.min(
        ...drawings
          .flat()
          .flatMap(lettering)
          .map((t) => t.primitive.height),
      )
      expect(least).toBe(2.5)
    }
  })

  it('says whose word comes first, and has a line of 100 mm, or of 4 in on inch sheets', () => {
    expect(new Set(cases.map(({ job }) => job.displayUnits))).toEqual(new Set(['mm', 'in']))
    for (const { job, drawings } of cases)
      for (const sheet of drawings.flat()) {
        const [long, words] = job.displayUnits === 'in' ? [4 * 25.4, '4 in'] : [100, '100 mm']
        expect(allText([sheet])).toContain(PRECEDENCE)
        expect(plainPrimitives(sheet).filter(isCheckLine(long))).toHaveLength(1)
        expect(allText([sheet])).toContain(`${words}: check the print`)
      }
  })

  it('never says safe', () => {
    for (const { drawings } of cases) expect(allText(drawings.flat())).not.toMatch(/\bsafe/i)
  })

  it('counts the sheets and the setups', () => {
    for (const { job, drawings } of cases) {
      drawings.forEach((pages, k) => {
        pages.forEach((page, i) => {
          const texts = textsOf([page])
          expect(texts).toContain(`${i + 1} of ${pages.length}`)
          expect(texts).toContain(`Setup ${k + 1} of ${job.setups.length}`)
        })
      })
    }
  })

  it('lists every speed and every piece of hardware once, over as many sheets as it takes', () => {
    for (const { job, drawings } of cases) {
      drawings.forEach((pages, k) => {
        const texts = textsOf(pages)
        for (const { rpm } of job.lathe.speeds.steps)
          expect(texts.filter((t) => t.replace('▶ ', '') === String(rpm)).length).toBeGreaterThan(0)
        const heads = texts.filter((t) => t === 'Hardware').length
        expect(heads).toBe(job.setups[k]!.hardware.length > 0 ? 1 : 0)
        for (let i = 1; i <= job.setups[k]!.hardware.length; i++) expect(texts).toContain(String(i))
      })
    }
  })

  it('is at a scale of ISO 5455', () => {
    const standard = new Set([
      '50:1',
      '20:1',
      '10:1',
      '5:1',
      '2:1',
      '1:1',
      '1:2',
      '1:5',
      '1:10',
      '1:20',
      '1:50',
    ])
    for (const { drawings } of cases) {
      for (const [first] of drawings) {
        const scales = textsOf([first!]).filter((t) => /^\d+:\d+$/.test(t))
        expect(scales).toHaveLength(1)
        expect(standard).toContain(scales[0])
      }
    }
  })
})

describe("the bracket's sheet", () => {
  const sheets = bracketSheets()
  const text = allText(sheets)
  const job = bracketJob()
  const analysis = bracketAnalysis()

  it('is one A3 sheet at 1:2 with everything on it but what it has no room for', () => {
    expect([sheets[0]!.width, sheets[0]!.height]).toEqual([420, 297])
    expect(textsOf(sheets.slice(0, 1))).toContain('1:2')
  })

  it('has slots, items, heavy side, centre of mass, clamp bolts and the title block', () => {
    for (const slot of job.plate.slots) expect(count(sheets.slice(0, 1), slot.id)).toBeGreaterThanOrEqual(1)
    for (const words of [
      'HEAVY SIDE',
      "12 o'clock",
      'item 1 clears the gap floor by 85',
      'centre of mass as set up',
      'before counterweights',
      'M12 8.8',
      'EV-0522',
      'Bearing bracket, bore the boss',
      'grey cast iron',
      '2026-03-01',
      'J. Turner',
      'Setup 1 of 1',
      '○ GO, SPINDLE 110 rpm',
      'By hand, before power',
      'Order of assembly',
      'stand out of the plane',
      'Assumed, and how sure',
      '95 % bound',
      'no standard covers faceplate work',
    ])
      expect(text).toContain(words)
  })

  it('gives each spindle speed with force, bound, share and verdict', () => {
    const verdicts = { go: '○ go', stop: '■ stop' }
    for (const verdict of ['go', 'stop'] as const)
      expect(count(sheets, verdicts[verdict])).toBe(
        analysis.speeds.filter((s) => s.verdict === verdict).length,
      )
    expect(textsOf(sheets)).toContain('▶ 110')
  })

  it('stops in red what is above the ceiling', () => {
    const fast = { ...job, setups: [{ ...job.setups[0]!, speed: 1500 }] }
    const drawn = setupSheet(fast, 'op10', analyse(fast, 'op10'))
    const headline = drawn.flatMap(lettering).find((t) => t.text.startsWith('■ STOP'))!
    expect(headline.text).toBe('■ STOP, SPINDLE 1500 rpm')
    expect(headline.primitive.layer).toBe('caution')
  })

  it('marks the centre of mass where the analysis has it', () => {
    const discs = sheets[0]!.primitives.flatMap((p) =>
      p.kind === 'circle' && p.layer === 'mark' && p.radius === 2 && p.fill === 'paper' ? [p.centre] : [],
    )
    const station = sheets[0]!.primitives.find((p) => p.kind === 'polar')!
    const axis = station.centre
    const [x, y] = analysis.assembly.centroid_mm
    // Before the counterweight, and as set up.
    expect(discs).toHaveLength(2)
    expect(discs[1]!.x).toBeCloseTo(axis.x + x / 2, 9)
    expect(discs[1]!.y).toBeCloseTo(axis.y + y / 2, 9)
    const others = analysis.terms.filter((t) => t.item !== 'w1')
    const mass = others.reduce((sum, t) => sum + t.mass_kg, 0)
    const lift = others.reduce((sum, t) => sum + t.unbalance_g_mm.y / 1000, 0) / mass
    expect(discs[0]!.y).toBeCloseTo(axis.y + lift / 2, 9)
  })

  it('is in first angle for mm and in third for inches, with the side view on the other side', () => {
    const title = (drawings: readonly Drawing[], start: string) =>
      drawings.flatMap(lettering).find((t) => t.text.startsWith(start))!.primitive.at.x
    const inch = bracketSheets({}, 'in')
    expect(title(sheets, 'Section')).toBeGreaterThan(title(sheets, 'Plate seen'))
    expect(title(inch, 'Section')).toBeLessThan(title(inch, 'Plate seen'))
    expect([inch[0]!.width, inch[0]!.height]).toEqual([431.8, 279.4])
    expect(textsOf(inch)).toContain('inch')
  })

  it('takes the scale asked for where it fits, and the largest that fits where not', () => {
    const scaleOf = (scale: number) => textsOf(bracketSheets({ scale })).find((t) => /^\d+:\d+$/.test(t))
    expect(scaleOf(0.1)).toBe('1:10')
    expect(scaleOf(2)).toBe('1:2')
    expect(() => bracketSheets({ scale: 0 })).toThrow(RangeError)
    expect(() => bracketSheets({ scale: Number.NaN })).toThrow(RangeError)
  })

  it('refuses an unknown setup', () => {
    expect(() => setupSheet(job, 'op99', analysis)).toThrow(RangeError)
  })
})

describe('the crank link, two setups', () => {
  const job = exampleJob('flat-link')
  const [first, second] = job.setups.map((s) => setupSheet(job, s.id, analyse(job, s.id)))

  it('shows what is bored now, what later, and what is open by then', () => {
    expect(textsOf(first!)).toContain('A Ø42')
    expect(textsOf(first!)).toContain('B Ø25 later')
    expect(textsOf(second!)).toContain('A Ø42 open')
    expect(textsOf(second!)).toContain('B Ø25')
  })
})

describe('what the job says of its drawing', () => {
  const job = shippedJob('flat-link')
  const own = {
    ...job,
    titleBlock: { owner: 'Millbrook Shop', by: 'A. Hand', approved: 'C. Head', revision: 'C' },
    setups: job.setups.map((s) => ({
      ...s,
      sheet: {
        size: 'ANSI-A',
        scale: 0.1,
        projection: 'third',
        dimensions: { packing: { hidden: true } },
      } as const,
    })),
  }
  const ids = (drawings: readonly Drawing[]) =>
    drawings[0]!.primitives.flatMap((p) => ('id' in p && p.id ? [p.id] : []))

  it('is how it is drawn, and gives way to what is asked for', () => {
    const drawn = setupSheet(own, 'op10', analyse(own, 'op10'))
    expect([drawn[0]!.width, drawn[0]!.height]).toEqual([215.9, 279.4])
    for (const words of ['Millbrook Shop', 'A. Hand', 'C. Head', 'C', '1:10', 'ANSI A'])
      expect(count(drawn, words), words).toBeGreaterThan(0)
    expect(ids(drawn)).not.toContain('packing')
    const asked = setupSheet(own, 'op10', analyse(own, 'op10'), {
      sheet: 'A3',
      scale: 'auto',
      by: 'B. Hand',
      dimensions: {},
    })
    for (const words of ['Millbrook Shop', 'B. Hand', '1:2', 'A3'])
      expect(count(asked, words), words).toBe(words === 'A3' ? asked.length : 1)
    expect(ids(asked)).toContain('packing')
  })

  it('is of its own setup; a job is all of them in order', () => {
    const all = jobSheets(own, { sheet: 'A3' })
    const apart = own.setups.flatMap((s) => setupSheet(own, s.id, analyse(own, s.id), { sheet: 'A3' }))
    expect(all).toHaveLength(apart.length)
    // Numbered through, so that a sheet that is lost from the pile is missed.
    all.forEach((page, i) => {
      expect(textsOf([page])).toContain(`${i + 1} of ${all.length}`)
      expect(page.title).toBe(apart[i]!.title)
    })
    expect(allText(all)).toMatch(/Setup 1 of 2.*Setup 2 of 2/)
  })
})

describe('sheets that follow', () => {
  it('are filled: the link takes four of A4, each but the last with lists to below its middle', () => {
    const job = shippedJob('flat-link')
    for (const { id } of job.setups) {
      const pages = setupSheet(job, id, analyse(job, id), { sheet: 'A4' })
      expect(pages.length).toBeLessThanOrEqual(4)
      for (const page of pages.slice(1, -1)) {
        // Above the foot of the sheet.
        const ys = lettering(page)
          .map((t) => t.primitive.at.y)
          .filter((y) => y > 75)
        expect(Math.min(...ys)).toBeLessThan(120)
      }
    }
  })
})

describe('a large sheet', () => {
  it.each([
    ['flat-link', 'mm', 'A3'],
    ['flat-link', 'in', 'ANSI-B'],
    ['bearing-bracket', 'mm', 'A3'],
    ['bearing-bracket', 'in', 'ANSI-B'],
  ] as const)(
    'holds the views, the hardware and the speeds of %s in %s, with nothing left out',
    (name, displayUnits, sheet) => {
      const job = { ...shippedJob(name), displayUnits }
      for (const { id } of job.setups) {
        const drawn = setupSheet(job, id, analyse(job, id), { sheet })
        for (const list of ['Hardware', 'Spindle speeds']) expect(textsOf(drawn.slice(0, 1))).toContain(list)
        expect(drawn.length).toBeLessThanOrEqual(2)
        expect(allText(drawn)).not.toContain('No room')
      }
    },
  )

  it('marks where each clamp bears', () => {
    const job = exampleJob('flat-link')
    const squares = (j: typeof job) =>
      plainPrimitives(setupSheet(j, 'op10', analyse(j, 'op10'))[0]!).filter(
        (p) => p.kind === 'path' && p.layer === 'mark' && p.fill === 'solid' && p.steps.length === 5,
      ).length
    const clamps = job.setups[0]!.hardware.filter((h) => h.kind === 'press' && h.press?.nose).length
    // One more stands in the legend.
    expect(squares(job)).toBe(clamps + 1)
    const without = job.setups.map((s) => ({
      ...s,
      hardware: s.hardware.map((h) => (h.kind === 'press' ? { ...h, press: { ...h.press, nose: null } } : h)),
    }))
    expect(squares({ ...job, setups: without })).toBe(0)
  })
})
