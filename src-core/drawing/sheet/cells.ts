/** What cells of several lists say: units, sizes, studs and torques. */
import { fastenerOf, fastenerWords } from '../../hardware/fastener.ts'
import type { Hardware, Job } from '../../job/schema.ts'
import type { MountedPiece } from '../../mounting/types.ts'
import { convert } from '../../units/convert.ts'
import { significant } from '../../units/format.ts'
import { dimensionText } from '../views/view.ts'

/** Room to write a figure in, mm. */
export const TO_WRITE = 24
export const NONE = '–'

export const lengthUnit = ({ displayUnits }: Job): string => (displayUnits === 'in' ? 'in' : 'mm')
export const torqueUnit = ({ displayUnits }: Job): string => (displayUnits === 'in' ? 'lbf·ft' : 'N·m')

/** A torque in the unit that the column is headed with. */
export function torqueFigure({ displayUnits }: Job, torque: number): string {
  if (displayUnits === 'mm') return significant(torque, 3)
  return significant(convert(convert(torque, 'N', 'lbf'), 'm', 'ft'), 3)
}

export const by = (job: Job, sizes: readonly number[]): string =>
  sizes.map((s) => dimensionText(job, s)).join(' × ')

/** Thread, class and length; a length that is not given is the least that the joint wants. */
export function studWords(job: Job, { item, fastenings }: MountedPiece): string {
  const words = fastenerWords(fastenerOf(item))
  const known = fastenings[0]
  if (!known) return words || NONE
  const length =
    known.length === null ? `at least ${dimensionText(job, known.needed)}` : dimensionText(job, known.length)
  return [words || 'stud', length].join(' × ')
}

export const torqueCell = (job: Job, item: Hardware): string => {
  const torque = fastenerOf(item)?.torque
  return torque ? torqueFigure(job, torque) : NONE
}
