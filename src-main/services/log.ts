/** A log that the user can find: one line an event, at most two files of one megabyte. */
import { appendFileSync, mkdirSync, renameSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'

const MOST_BYTES = 1024 * 1024

export interface Log {
  readonly path: string
  /** The same; the log is there from then on, empty where nothing was written yet. */
  made(): string
  /** Never throws: a log that cannot be written must not stop the work. */
  write(what: unknown): void
}

export function createLog(userData: string): Log {
  const path = join(userData, 'logs', 'evenswing.log')
  return {
    path,
    made() {
      mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
      appendFileSync(path, '', { mode: 0o600 })
      return path
    },
    write(what) {
      const text = what instanceof Error ? (what.stack ?? what.message) : String(what)
      try {
        mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
        if (sizeOf(path) > MOST_BYTES) renameSync(path, `${path}.1`)
        appendFileSync(
          path,
          `${new Date().toISOString()} ${text.replace(/\r?\n/g, ' | ').slice(0, 4000)}\n`,
          {
            mode: 0o600,
          },
        )
      } catch {
        // The console has it as well.
      }
    },
  }
}

function sizeOf(path: string): number {
  try {
    return statSync(path).size
  } catch {
    return 0
  }
}
