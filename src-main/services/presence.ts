/**
 * Whether the program that keeps drafts still runs. Its process number says little: it may belong to another process
 * by now, and means nothing on another machine. So it writes a beat into a file while it has work in hand; who wants
 * to know looks whether the beat moves, and needs no clock for it.
 */
import { randomBytes } from 'node:crypto'
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { systemCode } from './hostError.ts'
import { OWN_FILE, OWN_FOLDER } from './keptJson.ts'

const BEAT = 1000
/** A beat that stands still over so many looks, so far apart (ms), has ended. */
const LOOKS = 6
const PAUSE = 900

export interface Presence {
  /** The name of this run of the program. */
  readonly session: string
  /** Beats from now on; the first beat stands when this returns. */
  begin(): Promise<void>
  end(): Promise<void>
  /** Which of other runs still beat. Those that do not are cleared away. */
  living(sessions: Iterable<string>): Promise<ReadonlySet<string>>
}

const sleep = (ms: number) => new Promise<void>((done) => setTimeout(done, ms))

export const PRESENCE_ENDING = '.running'

/** `pause` is how to wait between two looks. */
export function createPresence(folder: string, pause: (ms: number) => Promise<void> = sleep): Presence {
  const session = randomBytes(9).toString('hex')
  const fileOf = (of: string) => join(folder, of + PRESENCE_ENDING)
  let beats = 0
  let timer: NodeJS.Timeout | null = null
  let last: Promise<unknown> = Promise.resolve()
  const write = () => writeFile(fileOf(session), String(++beats), { mode: OWN_FILE })

  async function moves(of: string): Promise<boolean> {
    const first = await beatOf(fileOf(of))
    for (let look = 0; first !== null && look < LOOKS; look++) {
      await pause(PAUSE)
      const now = await beatOf(fileOf(of))
      if (now === null) break
      if (now !== first) return true
    }
    await rm(fileOf(of), { force: true }).catch(() => undefined)
    return false
  }

  return {
    session,
    async begin() {
      if (timer) return
      await mkdir(folder, { recursive: true, mode: OWN_FOLDER })
      await write()
      timer ??= setInterval(() => (last = last.then(write).catch(() => undefined)), BEAT).unref()
    },
    async end() {
      if (timer) clearInterval(timer)
      timer = null
      await last
      await rm(fileOf(session), { force: true })
    },
    async living(sessions) {
      const others = [...new Set(sessions)].filter((s) => s !== session)
      const moving = await Promise.all(others.map(moves))
      return new Set(others.filter((_, i) => moving[i]))
    },
  }
}

async function beatOf(file: string): Promise<string | null> {
  try {
    return await readFile(file, 'utf8')
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null
    throw error
  }
}
