/** The sheet's lists: hardware with stations and masses, and spindle speeds with force and verdict. */
import type { Analysis } from '../analysis/result.ts'
import type { Job } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { convert } from '../units/convert.ts'
import { formatter, plain, significant } from '../units/format.ts'
import { stationRadius } from './frontView.ts'
import type { Column } from './table.ts'
import { dimensionText } from './view.ts'

export const HARDWARE_COLUMNS: readonly Column[] = [
  { title: 'No', width: 8, align: 'middle' },
  { title: 'Piece', width: 33 },
  { title: 'Mass', width: 15, align: 'end' },
  { title: 'Slot', width: 11 },
  { title: 'R', width: 12, align: 'end' },
  { title: 'Ang.*', width: 13, align: 'end' },
  { title: 'Bolt', width: 32 },
]

/** Angles are counter-clockwise from the index slot, the plate's first; without slots from 3 o'clock. */
export function hardwareRows(job: Job, mounted: Mounted): string[][] {
  const fmt = formatter(job.displayUnits)
  const index = job.plate.slots[0]?.angle ?? 0
  return mounted.pieces.map((piece, i) => {
    const { item, at } = piece
    const where = item.at
    const station = 'slot' in where ? where.slot : 'hole' in where ? where.hole : 'x, y'
    const radius = stationRadius(piece) ?? Math.hypot(at.x, at.y)
    const angle = ((((Math.atan2(at.y, at.x) * 180) / Math.PI - index) % 360) + 360) % 360
    const clamp = item.clamp
    const bolt = clamp?.thread
      ? `${clamp.thread}${clamp.class ? ` ${clamp.class}` : ''}${clamp.torque ? `, ${torqueText(job, clamp.torque)}` : ''}`
      : item.kind === 'packing'
        ? 'loose'
        : ''
    return [
      String(i + 1),
      `${item.name ?? item.kind}${item.name ? '' : ` ${item.id}`}`,
      fmt.mass(item.mass),
      station,
      dimensionText(job, radius),
      `${plain(Math.round(angle * 10) / 10 === 360 ? 0 : angle, 1)}°`,
      bolt,
    ]
  })
}

function torqueText(job: Job, torque: number): string {
  if (job.displayUnits === 'mm') return `${significant(torque, 3)} N·m`
  return `${significant(convert(convert(torque, 'N', 'lbf'), 'm', 'ft'), 3)} lbf·ft`
}

export const SPEED_COLUMNS: readonly Column[] = [
  { title: 'rpm', width: 13, align: 'end' },
  { title: 'Force', width: 16, align: 'end' },
  { title: '95 %', width: 16, align: 'end' },
  { title: 'Share', width: 16, align: 'end' },
  { title: 'Verdict', width: 17 },
]

const SIGNS = { go: '○ go', caution: '△ caution', stop: '■ stop' } as const

export function speedRows(job: Job, analysis: Analysis): { rows: string[][]; bold: Set<number> } {
  const fmt = formatter(job.displayUnits)
  const setup = job.setups.find((s) => s.id === analysis.setup)
  const bold = new Set<number>()
  const rows = analysis.speeds.map((s, i) => {
    if (s.rpm === setup?.speed) bold.add(i)
    return [
      `${plain(s.rpm, 0)}${s.rpm === setup?.speed ? ' *' : ''}`,
      fmt.force(s.force_N),
      fmt.force(s.force_upper95_N),
      fmt.percent(s.weight_share),
      SIGNS[s.verdict],
    ]
  })
  return { rows, bold }
}
