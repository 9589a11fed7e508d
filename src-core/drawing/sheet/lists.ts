/** The sheet's lists: hardware with stations, masses and bolts, and spindle speeds with force and verdict. */
import { KIND_WORDS } from '../../hardware/words.ts'
import { fastenerOf, fastenerWords } from '../../hardware/fastener.ts'
import { directionOf } from '../../geometry/angles.ts'
import type { Analysis } from '../../analysis/result.ts'
import { isOnFixture, isStationed, type Job, type Setup } from '../../job/schema.ts'
import type { Mounted, MountedPiece } from '../../mounting/types.ts'
import { convert } from '../../units/convert.ts'
import { plain, significant } from '../../units/format.ts'
import { VERDICT_WORDS, type Verdict } from '../../verdict/speeds.ts'
import { torqueFigure } from './cells.ts'
import type { TableInput } from './table.ts'
import { dimensionText } from '../views/view.ts'
import { angleText, indexWords } from '../../mounting/plateAngle.ts'

/** Angles are counter-clockwise from the index slot, the plate's first; without slots from 3 o'clock. */
export function hardwareTable(job: Job, mounted: Mounted): TableInput {
  const inch = job.displayUnits === 'in'
  return {
    title: 'Hardware',
    remark: `Angles counter-clockwise from ${indexWords(job)}.`,
    columns: [
      { title: 'No', align: 'middle' },
      { title: 'Item', wraps: true },
      { title: inch ? 'lb' : 'kg', align: 'end' },
      { title: 'Slot' },
      { title: inch ? 'R, in' : 'R, mm', align: 'end' },
      { title: 'Angle', align: 'end' },
      { title: 'Bolt' },
      { title: inch ? 'lbf·ft' : 'N·m', align: 'end' },
    ],
    rows: mounted.pieces.map((piece, i) => hardwareRow(job, piece, i)),
  }
}

function hardwareRow(job: Job, { item, at, mass }: MountedPiece, i: number): string[] {
  const where = isStationed(item) ? item.at : { x: at.x, y: at.y }
  const station =
    'slot' in where
      ? where.slot
      : isOnFixture(where)
        ? `${where.on}${'hole' in where ? ` ${where.hole}` : ''}`
        : 'hole' in where
          ? where.hole
          : '–'
  const radius = Math.hypot(at.x, at.y)
  const fastener = fastenerOf(item)
  const torque = fastener?.torque
  return [
    plain(i + 1, 0),
    item.name || `${KIND_WORDS[item.kind]} ${item.id}`,
    significant(job.displayUnits === 'in' ? convert(mass, 'kg', 'lbm') : mass, 3),
    station,
    dimensionText(job, radius),
    radius > 0 ? angleText(job, directionOf(at)) : '–',
    item.kind === 'packing' ? 'laid under' : fastenerWords(fastener) || '–',
    torque ? torqueFigure(job, torque) : '–',
  ]
}

/** One shape each, for a sheet is often printed black. */
const SIGNS: Readonly<Record<Verdict, string>> = { go: '○', caution: '△', 'not-judged': '◇', stop: '■' }

export const signed = (verdict: Verdict): string => `${SIGNS[verdict]} ${VERDICT_WORDS[verdict]}`

/** Two figures, none of them finer than a tenth: nobody sets up by less. */
function percentOfWeight(share: number): string {
  const percent = share * 100
  return percent > 0 && percent < 0.05 ? '< 0.1' : plain(percent, percent < 10 ? 1 : 0)
}

export function speedTable(job: Job, setup: Setup, analysis: Analysis): TableInput {
  const inch = job.displayUnits === 'in'
  const force = (n: number) => significant(inch ? convert(n, 'N', 'lbf') : n, n < 1000 ? 2 : 3)
  const bold = new Set<number>()
  const rows = analysis.speeds.map((s, i) => {
    const chosen = s.rpm === setup.speed
    if (chosen) bold.add(i)
    return [
      `${chosen ? '▶ ' : ''}${plain(s.rpm, 1)}`,
      force(s.force_N),
      force(s.force_upper95_N),
      percentOfWeight(s.weight_share),
      signed(s.verdict),
    ]
  })
  return {
    title: 'Spindle speeds',
    remark: `Pull in ${inch ? 'lbf' : 'N'}; 95 %: no more than this, 19 times in 20; % wt: of all that turns.`,
    columns: [
      { title: 'rpm', align: 'end' },
      { title: inch ? 'lbf' : 'N', align: 'end' },
      { title: '95 %', align: 'end' },
      { title: '% wt', align: 'end' },
      { title: 'Verdict' },
    ],
    rows,
    bold,
    narrow: true,
  }
}
