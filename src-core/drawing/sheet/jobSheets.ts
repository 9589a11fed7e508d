/** The setup drawings of a whole job, in the order in which its setups run. */
import { analyse } from '../../analysis/analyse.ts'
import type { Job } from '../../job/schema.ts'
import type { Drawing } from '../model/model.ts'
import { setupSheets, type SheetOptions } from './setupSheet.ts'

/** Of a file that holds the drawings of every setup. */
export const allSetupsTitle = ({ partNumber, title, part }: Job): string =>
  `${partNumber || title || part.name}, all setups`

/** Every sheet of every setup, numbered through. Throws RangeError as `setupSheet` does. */
export const jobSheets = (job: Job, options: SheetOptions = {}): Drawing[] =>
  setupSheets(
    job,
    job.setups.map(({ id }) => ({ setup: id, analysis: analyse(job, id) })),
    options,
  ).flat()
