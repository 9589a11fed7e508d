/** The job taken out of the window as a file, past a host that is gone; dropped on another window it goes on there. */
import { jobFaults } from '../../src-core/job/faults.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'

/** As a job file where it would open as one, else as it stands, which a window takes as unfinished work. */
export function copyText(job: Job): string {
  try {
    if (jobFaults(job).length === 0) return serialiseJob(job)
  } catch {
    // Beyond what a job file may hold: better kept so than not at all.
  }
  return JSON.stringify(job)
}

/** Gives the browser a file to put among its downloads. */
export function download(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  // Not at once: the browser still reads from it.
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
