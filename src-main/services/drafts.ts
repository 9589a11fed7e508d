/**
 * Unsaved work of every open window, written as it is edited. A draft names the run of the program that wrote it, so
 * that a later start can tell work that was lost in a crash from work that another window still has in hand.
 */
import { readdir, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import { z } from 'zod'
import type { Draft } from '../../src-core/bridge/bookContract.ts'
import { fileError, HostError, systemCode } from './hostError.ts'
import { readJobFile } from './jobStore.ts'
import { readKept, writeKept } from './keptJson.ts'
import { createPresence, PRESENCE_ENDING } from './presence.ts'
import { isAlive, machine } from './processes.ts'
import { FILE_LIMIT } from './readPlainFile.ts'

/** ms: damaged drafts are set aside for so long. */
const OLD = 90 * 24 * 3600 * 1000
/** ms: the beat of a run that kept no draft at its end. */
const BEAT_OLD = 24 * 3600 * 1000
/** ms: how long a job's file may take to say what it holds. */
const PATIENCE = 1500

const schema = z.strictObject({
  name: z.string().max(1000),
  path: z.string().max(10_000).nullable(),
  stamp: z.string().max(200).nullable(),
  text: z.string().max(FILE_LIMIT),
  kept: z.iso.datetime(),
  process: z.strictObject({ id: z.int().positive(), host: z.string().max(300) }),
  /** Missing in drafts of before there were sessions; no program that runs has those in hand. */
  session: z
    .string()
    .regex(/^[0-9a-f]{1,60}$/)
    .optional(),
})
type Stored = z.infer<typeof schema>

export interface StoredDraft {
  readonly id: string
  readonly name: string
  readonly path: string | null
  readonly stamp: string | null
  readonly kept: string
}

export interface Drafts {
  keep(draft: Draft, path: string | null): Promise<void>
  drop(id: string): Promise<void>
  /** All that no other run has in hand, newest first; the window knows which its own siblings hold. */
  left(): Promise<StoredDraft[]>
  read(id: string): Promise<string>
}

const ID = /^[A-Za-z0-9-]{1,60}$/

/** `pause` is how to wait between two looks at whether another run still beats. */
export function createDrafts(userData: string, pause?: (ms: number) => Promise<void>): Drafts {
  const folder = join(userData, 'drafts')
  const presence = createPresence(folder, pause)
  const own = new Set<string>()
  const fileOf = (id: string): string => {
    if (!ID.test(id)) throw new HostError('request.refused', 'That is not a draft')
    return join(folder, `${id}.json`)
  }
  const stored = async (path: string): Promise<Stored | null> =>
    (await readKept(path, schema, FILE_LIMIT * 2)).value

  return {
    async keep({ id, name, stamp, text }, path) {
      const file = fileOf(id)
      own.add(id)
      try {
        await presence.begin()
      } catch (error) {
        throw fileError(error, 'The draft')
      }
      await writeKept(file, {
        name,
        path,
        stamp,
        text,
        kept: new Date().toISOString(),
        process: { id: process.pid, host: machine() },
        session: presence.session,
      } satisfies Stored)
    },
    async drop(id) {
      try {
        await rm(fileOf(id), { force: true })
        if (own.delete(id) && own.size === 0) await presence.end()
      } catch (error) {
        throw fileError(error, 'The draft')
      }
    },
    async left() {
      const names = await namesIn(folder)
      const found: (StoredDraft & Pick<Stored, 'process' | 'session'>)[] = []
      // One after the other: each holds a whole job.
      for (const name of names) {
        const id = name.slice(0, -'.json'.length)
        if (!name.endsWith('.json') || !ID.test(id)) continue
        const value = await stored(join(folder, name))
        if (value && (await isSaved(value))) await rm(join(folder, name), { force: true })
        else if (value) found.push({ id, ...headOf(value), process: value.process, session: value.session })
      }
      const inDoubt = found.flatMap((d) =>
        d.session !== undefined && !isKnownDead(d.process) ? [d.session] : [],
      )
      const living = await presence.living(inDoubt)
      await clearAway(folder, names, new Set(living).add(presence.session))
      return found
        .filter((d) => d.session === undefined || !living.has(d.session))
        .map(({ id, name, path, stamp, kept }) => ({ id, name, path, stamp, kept }))
        .sort((a, b) => b.kept.localeCompare(a.kept))
    },
    async read(id) {
      const value = await stored(fileOf(id))
      if (!value) throw new HostError('file.gone', 'The draft is not there any more')
      return value.text
    },
  }
}

/** Whether the file holds the very same by now: such a draft is stale. A drive that does not answer says no. */
async function isSaved({ path, text }: Stored): Promise<boolean> {
  if (path === null) return false
  try {
    const late = new Promise<null>((done) => setTimeout(() => done(null), PATIENCE).unref())
    const file = await Promise.race([readJobFile(path), late])
    return file !== null && isDeepStrictEqual(JSON.parse(file.text), JSON.parse(text))
  } catch {
    return false
  }
}

const headOf = ({ name, path, stamp, kept }: Stored) => ({ name, path, stamp, kept })

/** A process of this machine that is not there any more; a living number may be another process's by now. */
const isKnownDead = ({ id, host }: Stored['process']) => host === machine() && !isAlive(id)

/** Beats of runs that ended, and damaged drafts that were set aside long ago. Never throws. */
async function clearAway(
  folder: string,
  names: readonly string[],
  living: ReadonlySet<string>,
): Promise<void> {
  for (const name of names) {
    const path = join(folder, name)
    try {
      const isBeat = name.endsWith(PRESENCE_ENDING)
      if (isBeat && living.has(name.slice(0, -PRESENCE_ENDING.length))) continue
      const age = Date.now() - (await stat(path)).mtimeMs
      if (isBeat ? age > BEAT_OLD : name.includes('.damaged-') && age > OLD) await rm(path, { force: true })
    } catch {
      // Another window clears away too.
    }
  }
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return []
    throw fileError(error, folder)
  }
}
