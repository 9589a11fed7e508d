/** One fault of a job's file. */

export interface JobFault {
  /** Like `setups[0].cut.bore`; empty for the whole file. */
  readonly path: string
  readonly message: string
}

/** A fault as one says it: place, then reason. */
export const faultWords = ({ path, message }: JobFault): string => `${path || 'the file'} ${message}`
