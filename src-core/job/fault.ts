/** One fault of a job's file. */

export interface JobFault {
  /** Like `setups[0].cut.bore`; empty for the whole file. */
  readonly path: string
  readonly message: string
}

/** How an edge bends is no number that one knows by its name in the file. */
const bends = (path: string): string => path.replace(/\.bulge$/, ', the bend of the edge after it,')

/** A fault as one says it: place, then reason. */
export const faultWords = ({ path, message }: JobFault): string => `${bends(path) || 'the file'} ${message}`
