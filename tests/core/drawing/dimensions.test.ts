import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type {
  DimensionPrimitive,
  Drawing,
  PolarPrimitive,
  TextPrimitive,
} from '../../../src-core/drawing/model/model.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { bracketAnalysis, bracketJob, bracketSheets } from '../../helpers/goldenSheet.ts'
import { sheetCases } from '../../helpers/sheetJobs.ts'

const dimensions = (drawings: readonly Drawing[]): DimensionPrimitive[] =>
  drawings.flatMap((d) => d.primitives).filter((p) => p.kind === 'dimension')
const stations = (drawings: readonly Drawing[]): PolarPrimitive[] =>
  drawings.flatMap((d) => d.primitives).filter((p) => p.kind === 'polar')
const byId = (drawings: readonly Drawing[], id: string) => dimensions(drawings).find((d) => d.id === id)

/** The number that a text prints, in mm: "A Ø47 later", "R104", "2.362". */
function printed(text: string, units: Job['displayUnits']): number {
  const figure = /(?:^|[ØR])([\d.]+)(?: later| open)?$/.exec(text)?.[1]
  if (figure === undefined) expect.fail(`"${text}" prints no number`)
  return Number(figure) * (units === 'in' ? 25.4 : 1)
}

/** Half of the last place printed: a tenth of a millimetre, a thousandth of an inch. */
const rounding = { mm: 0.05, in: 0.0127 } as const
const SLACK = 1e-6

/** Sheet distance between the measured points along the dimension line, in model mm. */
function measured({ from, to, line, scale }: DimensionPrimitive): number {
  const length = Math.hypot(line.b.x - line.a.x, line.b.y - line.a.y)
  const along = (to.x - from.x) * (line.b.x - line.a.x) + (to.y - from.y) * (line.b.y - line.a.y)
  return along / length / scale
}

const sheets = sheetCases(50).map(({ job, options }) => ({
  job,
  drawings: job.setups.flatMap((s) => setupSheet(job, s.id, analyse(job, s.id), options)),
}))

describe('a part as far to one side of the axis as to the other', () => {
  it('has both dimensions on one level, and on two where one was moved by hand', () => {
    const job = shippedJob('flat-link')
    const levels = (of: Job) => {
      const drawn = setupSheet(of, 'op10', analyse(of, 'op10'))
      return ['part-top', 'part-bottom'].map((id) => byId(drawn, id)!.line.a.x)
    }
    const [top, bottom] = levels(job)
    expect(top).toBeCloseTo(bottom!, 9)
    const moved = job.setups.map((s) => ({ ...s, sheet: { dimensions: { 'part-top': { offset: 70 } } } }))
    const [alone, other] = levels({ ...job, setups: moved })
    expect(alone).not.toBeCloseTo(other!, 1)
  })
})

describe('dimensions of fifty set-ups', () => {
  it('print what they measure, and what the model is', () => {
    const faults: string[] = []
    let count = 0
    for (const { job, drawings } of sheets) {
      for (const d of dimensions(drawings)) {
        count++
        const shown = printed(d.text, job.displayUnits)
        const onSheet = measured(d)
        if (Math.abs(onSheet - d.value) > 1e-6 * Math.max(1, d.value))
          faults.push(`${d.id}: drawn ${onSheet}, value ${d.value}`)
        if (Math.abs(shown - onSheet) > rounding[job.displayUnits] + SLACK)
          faults.push(`${d.id}: prints ${d.text}, measures ${onSheet}`)
      }
    }
    expect(faults).toEqual([])
    expect(count).toBeGreaterThan(300)
  })

  it('have arrowheads at the ends of their line, and text at the height that is said', () => {
    for (const { drawings } of sheets.slice(0, 10)) {
      for (const d of dimensions(drawings)) {
        const texts = d.parts.filter((p): p is TextPrimitive => p.kind === 'text')
        expect(texts.map((t) => [t.text, t.height, t.at])).toEqual([[d.text, d.height, d.textAt]])
        const tips = d.parts.flatMap((p) => (p.kind === 'path' && p.fill === 'solid' ? [p.steps[0]!] : []))
        expect(tips.length).toBeGreaterThan(0)
        for (const tip of tips) {
          if (tip.to !== 'move') expect.fail('an arrowhead starts at its tip')
          const ends = [d.line.a, d.line.b].map((e) => Math.hypot(e.x - tip.x, e.y - tip.y))
          expect(Math.min(...ends)).toBeLessThan(1e-9)
        }
      }
    }
  })

  it('print radius and angle of each station as it stands on the sheet', () => {
    let count = 0
    for (const { job, drawings } of sheets) {
      for (const s of stations(drawings)) {
        count++
        const x = s.at.x - s.centre.x
        const y = s.at.y - s.centre.y
        const radius = Math.hypot(x, y) / s.scale
        expect(Math.abs(printed(s.radiusText, job.displayUnits) - radius)).toBeLessThanOrEqual(
          rounding[job.displayUnits] + SLACK,
        )
        if (s.angleText === '') continue
        const turned = (Math.atan2(y, x) * 180) / Math.PI - job.plate.slots.map((l) => l.angle).concat(0)[0]!
        const off = ((Number(s.angleText.replace('°', '')) - turned) % 360) + 360
        expect(Math.min(off % 360, 360 - (off % 360))).toBeLessThanOrEqual(0.05 + SLACK)
      }
    }
    expect(count).toBeGreaterThan(80)
  })
})

describe("the bracket's dimensions", () => {
  const sheet = bracketSheets()

  it('are those that the job gives', () => {
    const values = Object.fromEntries(dimensions(sheet).map((d) => [d.id, Math.round(d.value * 1e9) / 1e9]))
    // Turned a quarter about its bore: 105 long upward, 45 down, 60 each side; packing 16, web 18 and boss 26.
    expect(values).toMatchObject({
      'part-top': 105,
      'part-bottom': 45,
      'part-left': 60,
      'part-right': 60,
      'diameter:A': 47,
      'plate-thickness': 28,
      'plate-diameter': 300,
      packing: 16,
      'part-depth': 44,
      overhang: 76,
    })
  })

  it('leave out what the user hid, and put what he moved where he put it', () => {
    const moved = bracketSheets({ dimensions: { 'part-top': { hidden: true }, packing: { offset: 20 } } })
    expect(byId(sheet, 'part-top')).toBeDefined()
    expect(byId(moved, 'part-top')).toBeUndefined()
    const packing = byId(moved, 'packing')!
    expect(packing.line.a.y - packing.from.y).toBeCloseTo(20, 9)
    expect(byId(sheet, 'packing')!.line.a.y - packing.from.y).not.toBeCloseTo(20, 3)
  })

  it('stand for the stations in the list', () => {
    const found = stations(sheet).map((s) => [s.radiusText, s.angleText])
    expect(found.sort()).toEqual(
      [
        ['R104', '45°'],
        ['R104', '135°'],
        ['R98', '315°'],
        ['R98', '225°'],
        ['R100', '270°'],
      ].sort(),
    )
  })

  it('show the clearance to a bed that is near enough to draw', () => {
    const job = bracketJob()
    const lathe = { ...job.lathe, gap: null }
    const near = { ...job, lathe }
    const drawn = setupSheet(near, 'op10', analyse(near, 'op10'))
    const tightest = analyse(near, 'op10').clearances.find((c) => c.against === 'bed')!
    expect(byId(drawn, 'bed')!.value).toBe(165)
    expect(byId(drawn, 'clearance')!.value).toBeCloseTo(tightest.clearance_mm, 9)
    expect(byId(setupSheet(job, 'op10', bracketAnalysis()), 'bed')).toBeUndefined()
  })
})
