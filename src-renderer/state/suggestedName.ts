/** What a file of the job is called as long as nobody has named it. */
import type { JobStore } from './document.svelte.ts'

/** Of the file that the job was dropped from, else of part number and title. */
export function suggestedName({ job, givenName }: JobStore, suffix: string): string {
  if (givenName !== null) return givenName + suffix
  const words = `${job.partNumber ?? ''} ${job.title}`
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
  return (words.slice(0, 60) || 'faceplate-job') + suffix
}
