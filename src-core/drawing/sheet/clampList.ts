/** The clamps in the order of tightening: how each stands, its stud and its torque. */
import { fastenerOf } from '../../hardware/fastener.ts'
import { standOf } from '../../holding/stand.ts'
import { holderWord } from '../../hardware/words.ts'
import { capital } from '../../words/capital.ts'
import { isClamp, type Clamp, type Job } from '../../job/schema.ts'
import { angleText, indexWords } from '../../mounting/plateAngle.ts'
import type { Mounted, MountedPiece, MountedToe } from '../../mounting/types.ts'
import { inOrder } from '../../steps/hold.ts'
import { formatter, plain, spannerPull } from '../../units/format.ts'
import { dimensionText } from '../views/view.ts'
import { NONE, by, lengthUnit, studWords, torqueCell, torqueUnit } from './cells.ts'
import type { Column, TableInput } from './table.ts'

/** Null where nothing presses the part; bolts alone have no columns for straps. */
export function clampTable(mounted: Mounted): TableInput | null {
  const { job, pieces } = mounted
  const clamps = inOrder(pieces.filter((p) => isClamp(p.item)))
  if (clamps.length === 0) return null
  const hasStraps = clamps.some((c) => c.item.kind === 'clamp')
  const rows = clamps.map((piece, i) => [
    plain(i + 1, 0),
    plain(pieces.indexOf(piece) + 1, 0),
    ...(hasStraps ? strapCells(mounted, piece) : []),
    studWords(job, piece),
    torqueCell(job, piece.item),
    '',
  ])
  const over = clamps.some((c) => c.shelf) ? 'what it stands on' : 'the plate'
  const toe = hasStraps
    ? ` Toe: from the stud to the strap's end, and its height over ${over}; it points toward the angle, from ${indexWords(job)}.`
    : ''
  return {
    title: capital(`${holderWord(clamps.map((c) => c.item))}s`),
    remark: `In the order of tightening; ${lengthUnit(job)}.${toe}${pullWords(job, clamps)}`,
    columns: [
      { title: 'Order', align: 'end' },
      { title: 'No', align: 'middle' },
      ...(hasStraps ? STRAP_COLUMNS : []),
      { title: 'Stud', wraps: true },
      { title: torqueUnit(job), align: 'end' },
      { title: 'Set', least: 11 },
    ],
    rows,
    small: true,
  }
}

const STRAP_COLUMNS: readonly Column[] = [
  { title: 'Toward', align: 'end' },
  { title: 'Strap', wraps: true },
  { title: 'Heel' },
  { title: 'Packing', wraps: true },
  { title: 'Toe', align: 'end' },
  { title: 'High', align: 'end' },
]

/** In the order of `STRAP_COLUMNS`; a bolt has none of them. */
function strapCells(mounted: Mounted, piece: MountedPiece): string[] {
  const { job, setup } = mounted
  const { item, facing } = piece
  if (item.kind !== 'clamp') return STRAP_COLUMNS.map(() => NONE)
  const { toe } = standOf(mounted, piece).seen
  return [
    angleText(job, facing),
    by(job, strapSize(item)),
    heelWords(job, item, toe),
    item.packing && setup.packing > 0
      ? `${by(job, item.packing.size)} × ${dimensionText(job, setup.packing)}`
      : NONE,
    toe ? dimensionText(job, toe.toWork) : NONE,
    toe?.rest ? dimensionText(job, toe.rest.z) : NONE,
  ]
}

/** Torques for which the pull is said. */
const MOST_PULLS = 3

/** What each torque is by hand, the largest first; nothing where none is given. */
function pullWords(job: Job, clamps: readonly MountedPiece[]): string {
  const fmt = formatter(job.displayUnits)
  const torques = new Set(clamps.map((c) => fastenerOf(c.item)?.torque ?? 0).filter((t) => t > 0))
  const words = [...torques]
    .sort((a, b) => b - a)
    .slice(0, MOST_PULLS)
    .map((t) => `${fmt.torque(t)} is ${spannerPull(fmt, t, job.clampingKit?.spanner ?? null)}`)
  return words.length > 0 ? ` ${words.join('; ')}.` : ''
}

const strapSize = ({ strap }: Clamp): number[] => [strap.length, strap.width, strap.thickness]

function heelWords(job: Job, { heel }: Clamp, toe: MountedToe | null): string {
  if (!heel) return NONE
  const height = toe?.heel ?? null
  return `${heel.kind} ${height === null ? 'height not given' : dimensionText(job, height)}`
}
