import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { Drawing, PlainPrimitive } from '../../../src-core/drawing/model/model.ts'
import { shelfExample } from '../../helpers/jobs.ts'
import { sheetCases } from '../../helpers/sheetJobs.ts'
import { lettering, onGround, outside, overlaps, struckThrough } from '../../helpers/sheetText.ts'

const FRAME = { left: 20, other: 10 }
const BORDER = 5

/** Parts on an angle plate and in a vee. */
const onShelves = (['bearing-block', 'round-casting'] as const).flatMap((name) =>
  (['A4', 'A3', 'ANSI-B'] as const).map((sheet) => ({ job: shelfExample(name), options: { sheet } })),
)

const sheets = [...sheetCases(50), ...onShelves].map(({ job, options }, i) => {
  const drawings = job.setups.flatMap((s) => setupSheet(job, s.id, analyse(job, s.id), options))
  return { name: `set-up ${i + 1} on ${options.sheet}, ${job.displayUnits}`, drawings }
})

const isPart = (p: PlainPrimitive): boolean => p.kind === 'path' && p.layer === 'outline' && p.fill === 'tint'

/** Zone letters stand between frame and border. */
const inBorder = ({ width, height }: Drawing, p: { x: number; y: number }): boolean =>
  p.x < FRAME.left || p.x > width - FRAME.other || p.y < FRAME.other || p.y > height - FRAME.other

describe.each(sheets)('$name', ({ drawings }) => {
  it('has no text over another, over the part, outside its frame, or struck through', () => {
    const faults = drawings.map((drawing) => {
      const all = lettering(drawing)
      const inner = all.filter((t) => !inBorder(drawing, t.primitive.at))
      const { width, height } = drawing
      const frame = { x0: FRAME.left, y0: FRAME.other, x1: width - FRAME.other, y1: height - FRAME.other }
      const border = {
        x0: FRAME.left - BORDER,
        y0: FRAME.other - BORDER,
        x1: width - FRAME.other + BORDER,
        y1: height - FRAME.other + BORDER,
      }
      return {
        overlaps: overlaps(all),
        part: onGround(drawing, inner, isPart),
        outside: [...outside(inner, frame), ...outside(all, border)],
        struck: struckThrough(drawing, inner),
      }
    })
    expect(faults).toEqual(drawings.map(() => ({ overlaps: [], part: [], outside: [], struck: [] })))
  })
})
