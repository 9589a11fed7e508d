import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { clampTable } from '../../../src-core/drawing/sheet/clampList.ts'
import { cutTable } from '../../../src-core/drawing/sheet/cutList.ts'
import { madeOfTable, rollTestTable, stepsTable } from '../../../src-core/drawing/sheet/setupLists.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { SHEETS, type SheetName } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shelfExample, shippedJob } from '../../helpers/jobs.ts'
import { lettering } from '../../helpers/sheetText.ts'

const job = shippedJob('flat-link')
const mounted = mountSetup(job, 'op10')

describe("the crank link's lists", () => {
  it('give each clamp its direction, strap, stud, heel, packing, toe and torque', () => {
    const table = clampTable(mounted)!
    const clamps = job.setups[0]!.hardware.filter((h) => h.kind === 'clamp')
    expect(table.rows).toHaveLength(clamps.length)
    clamps.forEach((c, i) => {
      const row = table.rows[i]!.join(' | ')
      const { strap } = c
      expect(row).toContain([strap.length, strap.width, strap.thickness].join(' × '))
      expect(row).toContain(`${c.stud.thread} ${c.stud.class} × `)
      expect(row).toContain(`${c.heel!.kind} ${mounted.pieces[i]!.toe!.heel}`)
      expect(row).toContain(`${c.packing!.size.join(' × ')} × ${job.setups[0]!.packing}`)
      expect(row).toContain(` | ${c.torque} | `)
    })
  })

  it('give bolts alone no columns for straps, and no words on toes', () => {
    const table = clampTable(mountSetup(shelfExample('bearing-block'), 'op20'))!
    expect(table.columns.map((c) => c.title)).toEqual(['Order', 'No', 'Stud', 'N·m', 'Set'])
    for (const row of table.rows) expect(row).toHaveLength(table.columns.length)
    expect(table.rows.map((r) => r[2]!.slice(0, 7))).toEqual(['M12 8.8', 'M12 8.8'])
    expect(table.remark).not.toMatch(/toe|strap/i)
  })

  it('give a clamp in a vee its heel and toe over the lands', () => {
    const vee = shelfExample('round-casting')
    const table = clampTable(mountSetup(vee, 'op10'))!
    // By hand: 80 mm round in 90° stands 40·√2 over the bottom of the vee, the lands 62/2; its crown is 40 higher.
    const crown = (40 * Math.SQRT2 - 62 / 2 + 40).toFixed(1)
    expect(table.remark).toContain('height over what it stands on')
    for (const row of table.rows) {
      expect(row[4]).toBe(`block ${crown}`)
      expect(row.slice(6, 8)).toEqual(['54', crown])
    }
    expect(clampTable(mounted)!.remark).toContain('height over the plate')
  })

  it('give a weight its stack from the plate up', () => {
    const own = job.setups[0]!
    const stacked: Job = {
      ...job,
      stock: [
        { id: 'low', name: 'low disc', mass: 1, count: 2, footprint: { circle: 60 }, height: 10 },
        { id: 'top', name: 'top disc', mass: 1, count: 1, footprint: { circle: 50 }, height: 5 },
      ],
      setups: [
        {
          ...own,
          hardware: own.hardware.map((h) =>
            h.kind === 'weight'
              ? {
                  ...h,
                  stack: [
                    { stock: 'low', count: 2 },
                    { stock: 'top', count: 1 },
                  ],
                }
              : h,
          ),
        },
      ],
    }
    const rows = madeOfTable(mountSetup(stacked, 'op10'))!.rows
    expect(rows.map((r) => r[1])).toContain('2 × low disc, Ø60 × 10 + 1 × top disc, Ø50 × 5')
  })

  it('give the cut its tool, size, tolerance, depth, passes, speed and feed', () => {
    const withClass: Job = {
      ...job,
      part: {
        ...job.part,
        bores: job.part.bores.map((b) => (b.id === 'A' ? { ...b, tolerance: { class: 'H7' } } : b)),
      },
    }
    const cut = job.setups[0]!.cuts!.find((c) => c.kind === 'bore')!
    const bore = job.part.bores.find((b) => b.id === 'A')!
    const [row] = cutTable(mountSetup(withClass, 'op10'), analyse(withClass, 'op10'))!.rows.slice(-1)
    expect(row![2]).toBe(`Ø${bore.diameter} H7`)
    expect(row).toContain('through')
    expect(row).toContain(String(cut.feed))
    // By hand: 42 H7 is aimed at 42.01, 2 mm of radius from 38: two passes of 0.25 finish, 1.5 in cuts of 1 are two more.
    expect([bore.start, cut.depth]).toEqual([38, 1])
    expect(row![5]).toBe('4')
    // Without a tolerance: so many of that depth from the hole that is there to the finished size.
    const [plain] = cutTable(mounted, analyse(job, 'op10'))!.rows.slice(-1)
    expect(plain![5]).toBe(String(Math.ceil((bore.diameter - bore.start) / 2 / cut.depth)))
  })

  it('set nothing by a figure that is only computed: it stands among the words', () => {
    const analysis = analyse(job, 'op10')
    const { columns, rows } = stepsTable(mounted, analysis)
    const at = columns.findIndex((c) => c.title === 'Set to')
    const row = (title: string) => rows.find((r) => r[2]!.startsWith(title))!
    expect(row('Turn by hand')[at]).toBe('')
    expect(row('Turn by hand')[2]).toContain('Computed: plate to the bed, 15 mm.')
    expect(row('Roll test')[at]).toBe('')
    expect(rollTestTable(mounted, analysis).remark).toMatch(/^Computed: \d+ g·mm,/)
    expect(row('Clamp c1')[at]).toBe('25 N·m')
    expect(row('Boring A')[at]).toBe('110 rpm')
  })

  it('begin the list to fetch as a sentence, whatever case the part is named in', () => {
    const vee = shelfExample('round-casting')
    const rows = stepsTable(mountSetup(vee, 'op10'), analyse(vee, 'op10')).rows
    expect(vee.part.name).toBe('casting')
    expect(rows[0]![2]).toMatch(/^Fetch\. Casting, /)
  })

  it('begin with the slowest speed and say up to which; where power stays off they give none', () => {
    const row = (speed: number | null) => {
      const at: Job = { ...job, setups: job.setups.map((s) => ({ ...s, speed })) }
      const rows = stepsTable(mountSetup(at, 'op10'), analyse(at, 'op10')).rows
      return rows.filter((r) => /^(First speed|Boring A)/.test(r[2]!))
    }
    expect(job.lathe.speeds.steps[0]!.rpm).toBe(45)
    const [first, bore] = row(110)
    expect([first![3], bore![3]]).toEqual(['45 rpm', '110 rpm'])
    expect(first![2]).toContain('Up one gear at a time, to 110 rpm.')
    for (const speed of [540, null]) {
      const [barred] = row(speed)
      expect(barred![2]).toContain('Power stays off')
      expect(barred![3]).toBe('')
    }
    expect(row(540)[1]![3]).toBe('')
  })

  it('leave room to write: each step a box, what was measured, the roll test, who signs', () => {
    const steps = stepsTable(mounted, analyse(job, 'op10'))
    expect(steps.columns[0]!.ticks).toBe(true)
    expect(steps.columns.at(-1)!.least).toBeGreaterThanOrEqual(20)
    expect(rollTestTable(mounted, analyse(job, 'op10')).rows.every((r) => r.slice(1).join('') === '')).toBe(
      true,
    )
  })
})

describe.each(Object.keys(SHEETS) as SheetName[])('on %s', (sheet) => {
  it('each list stands on the sheets once', () => {
    const texts = setupSheet(job, 'op10', analyse(job, 'op10'), { sheet })
      .flatMap(lettering)
      .map((t) => t.text)
    const titles = [
      'Isometric',
      'Clamps',
      'Weights, packing and blocks',
      'Cuts',
      'Order of assembly',
      'Roll test',
      'Sign-off',
    ]
    for (const title of titles) expect(texts.filter((t) => t === title)).toHaveLength(1)
  })
})
