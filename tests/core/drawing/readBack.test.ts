/** Sheets read back from the files: every piece, bore and dimension of the job is on them, once. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { DimensionPrimitive } from '../../../src-core/drawing/model/model.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { writePdf } from '../../../src-core/drawing/writers/writePdf.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'
import { isClamp, type Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { readCircles, readWords, type PdfWord, type SvgCircle } from '../../helpers/readback.ts'
import { sheetCases } from '../../helpers/sheetJobs.ts'
import { everyKind } from '../../helpers/walkJobs.ts'

const font = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))
const fonts = { regular: font('DejaVuSans'), bold: font('DejaVuSans-Bold') }

const BALLOON = 4

interface Case {
  readonly name: string
  readonly job: Job
  readonly setup: string
  readonly options: Parameters<typeof setupSheet>[3]
}
const examples = (['flat-link', 'bearing-bracket'] as const).flatMap((name) => {
  const job = shippedJob(name)
  return job.setups.flatMap(({ id }) =>
    (['A3', 'A4'] as const).map((sheet): Case => ({
      name: `${name} ${id} ${sheet}`,
      job,
      setup: id,
      options: { sheet },
    })),
  )
})
const random = sheetCases(24).map(({ job, options }, i): Case => ({
  name: `set-up ${i + 1}, ${options.sheet}, ${job.displayUnits}`,
  job,
  setup: 'op10',
  options,
}))
const cases = [
  ...examples,
  { name: 'every kind of hardware', job: everyKind(), setup: 'op10', options: { sheet: 'A3' as const } },
  ...random,
]

/** Lengths as they are printed. */
const printed = (job: Job, mm: number): string =>
  job.displayUnits === 'in' ? String(Number((mm / 25.4).toFixed(3))) : String(Number(mm.toFixed(1)))

describe.each(cases)('$name', ({ job, setup, options }) => {
  const mounted = mountSetup(job, setup)
  const numbers = mounted.pieces.map((_, i) => String(i + 1))
  let words: readonly PdfWord[]
  let circles: readonly (readonly SvgCircle[])[]
  /** What the notes say found no room in the views. */
  let noRoom: readonly string[]
  let dimensions: readonly DimensionPrimitive[]
  beforeAll(async () => {
    const drawings = setupSheet(job, setup, analyse(job, setup), options)
    // But for the names of zones, outside the frame.
    words = readWords(await writePdf(drawings, fonts)).filter((w) => w.x > 20 && w.fromEdge > 10)
    dimensions = drawings.flatMap((d) => d.primitives.flatMap((q) => (q.kind === 'dimension' ? [q] : [])))
    circles = readCircles(drawings.map(writeSvg))
    const said = words.map((w) => w.text).join(' ')
    noRoom = (/No room in the views for: (.*?)\.( |$)/.exec(said)?.[1] ?? '').split(/, (?!\d)/)
  })

  /** Item numbers of a list, page after page: words under the heading of their column, whose list has that title. */
  const column = (title: string): string[] =>
    words
      .filter((w) => w.text === title)
      .flatMap((top) => {
        const left = top.x - top.width / 2
        const head = words
          .filter((w) => w.text === 'No' && w.page === top.page && w.x > left && w.x < left + 20)
          .filter((w) => w.y < top.y && w.y > top.y - 24)
          .sort((a, b) => b.y - a.y)[0]
        if (!head) return []
        const rows = words
          .filter((w) => w.page === head.page && w.y < head.y - 1 && Math.abs(w.x - head.x) < 1.2)
          .sort((a, b) => b.y - a.y)
        // Down to where the next row is missing.
        const end = rows.findIndex((w, k) => (rows[k - 1]?.y ?? head.y) - w.y > 40 || !/^\d+$/.test(w.text))
        return rows.slice(0, end < 0 ? undefined : end).map((w) => w.text)
      })

  it('has each piece in the view once, or says which found no room', () => {
    const balloons = circles.flatMap((list, i) =>
      list.filter((c) => c.r === BALLOON).map((c) => ({ ...c, page: i + 1 })),
    )
    const found = words.filter((w) =>
      balloons.some(
        (b) => b.page === w.page && Math.hypot(b.x - w.x, b.y - w.y) < 1.2 && w.width < 2 * BALLOON,
      ),
    )
    expect(found).toHaveLength(balloons.length)
    const missed = noRoom.flatMap((w) => /^items? ([\d, ]+)$/.exec(w)?.[1]!.split(', ') ?? [])
    expect([...found.map((w) => w.text), ...missed].sort()).toEqual([...numbers].sort())
  })

  it('has each piece once in the list of hardware, and once in that of clamps or of all else', () => {
    if (numbers.length === 0) return
    expect(column('Hardware')).toEqual(numbers)
    const clamps = numbers.filter((_, i) => isClamp(mounted.pieces[i]!.item))
    expect(column('Clamps').sort()).toEqual([...clamps].sort())
    const others = numbers.filter((n) => !clamps.includes(n))
    expect(column('Weights,')).toEqual(others)
  })

  it('names each bore once in the view, with its diameter', () => {
    const said = words.filter((w) => w.page === 1).map((w) => w.text)
    for (const { bore } of mounted.bores) {
      const label = `Ø${printed(job, bore.diameter)}`
      const found = said.filter((text, i) => text === bore.id && said[i + 1] === label)
      expect(found.length + (noRoom.includes(`diameter of bore ${bore.id}`) ? 1 : 0), bore.id).toBe(1)
    }
  })

  it('has the dimensions that one sets up by, once', () => {
    const { plate } = job
    const { ground, seat, partFront } = mounted
    const wanted = [
      { id: 'plate-diameter', what: 'diameter of the plate', text: `Ø${printed(job, plate.diameter)}` },
      { id: 'plate-thickness', what: 'thickness of the plate', text: printed(job, plate.thickness) },
      { id: 'part-depth', what: 'depth of the part', text: printed(job, partFront - seat) },
      ...(seat > ground ? [{ id: 'packing', what: 'packing', text: printed(job, seat - ground) }] : []),
    ]
    for (const { id, what, text } of wanted) {
      const missed = noRoom.some((w) => w.startsWith(what)) ? 1 : 0
      const drawn = dimensions.filter((d) => d.id === id)
      expect(drawn.length + missed, what).toBe(1)
      for (const d of drawn) expect([what, d.text]).toEqual([what, text])
    }
    // None twice, and each text that stands level is in the file once where it was put.
    const ids = dimensions.map((d) => d.id)
    expect(ids.filter((id, k) => ids.indexOf(id) !== k)).toEqual([])
    for (const { text, textAt: at, textAngle: angle } of dimensions) {
      // A bore's letter and diameter are two words.
      if (angle !== 0 || text.includes(' ')) continue
      const there = words.filter(
        (w) =>
          w.page === 1 && w.text === text && Math.abs(w.x - at.x) < 1 && Math.abs(w.y - at.y - 1.75) < 1.5,
      )
      expect(there, text).toHaveLength(1)
    }
  })

  it('has steps to tick, the roll test and the sign-off, once, and no figure finer than can be set', () => {
    const said = words.map((w) => w.text).join(' ')
    for (const title of [/Order of assembly(?!, continued)/g, /Roll test(?! and trim)/g, /Sign-off/g])
      expect(said.match(title), String(title)).toHaveLength(1)
    expect(words.filter((w) => /^\D*0\.0000|^\d[\d.]*e-\d/.test(w.text)).map((w) => w.text)).toEqual([])
  })
})
