/**
 * Unsaved work of every open window, written as it is edited. A draft names the process that wrote it, so that a
 * later start can tell work that was lost in a crash from work that another window still has in hand.
 */
import { readdir, rm } from 'node:fs/promises'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { z } from 'zod'
import type { Draft } from '../../src-core/bridge/bookContract.ts'
import { fileError, HostError, systemCode } from './hostError.ts'
import { readKept, writeKept } from './keptJson.ts'
import { FILE_LIMIT } from './readPlainFile.ts'

/** Drafts that are older than this are not offered any more, ms. */
const OLDEST = 90 * 24 * 3600 * 1000
const MOST = 50

const schema = z.strictObject({
  name: z.string().max(1000),
  path: z.string().max(10_000).nullable(),
  stamp: z.string().max(200).nullable(),
  text: z.string().max(FILE_LIMIT),
  kept: z.iso.datetime(),
  process: z.strictObject({ id: z.int().positive(), host: z.string().max(300) }),
})

export interface StoredDraft {
  readonly id: string
  readonly name: string
  readonly path: string | null
  readonly stamp: string | null
  readonly text: string
  readonly kept: string
}

export interface Drafts {
  keep(draft: Draft, path: string | null): Promise<void>
  drop(id: string): Promise<void>
  /** Those that no other process has in hand, newest first; the window knows which its own siblings hold. */
  left(): Promise<StoredDraft[]>
}

export function createDrafts(userData: string): Drafts {
  const folder = join(userData, 'drafts')
  const fileOf = (id: string): string => {
    if (!/^[A-Za-z0-9-]{1,60}$/.test(id)) throw new HostError('request.refused', 'That is not a draft')
    return join(folder, `${id}.json`)
  }
  return {
    keep: ({ id, name, stamp, text }, path) =>
      writeKept(fileOf(id), {
        name,
        path,
        stamp,
        text,
        kept: new Date().toISOString(),
        process: { id: process.pid, host: hostname() },
      } satisfies z.infer<typeof schema>),
    async drop(id) {
      try {
        await rm(fileOf(id), { force: true })
      } catch (error) {
        throw fileError(error, 'The draft')
      }
    },
    async left() {
      const found: StoredDraft[] = []
      for (const name of (await namesIn(folder)).slice(0, 500)) {
        const id = name.slice(0, -'.json'.length)
        if (!name.endsWith('.json') || !/^[A-Za-z0-9-]{1,60}$/.test(id)) continue
        const path = join(folder, name)
        const { value } = await readKept(path, schema, FILE_LIMIT * 2)
        if (!value || runsElsewhere(value.process)) continue
        if (Date.now() - Date.parse(value.kept) > OLDEST) await rm(path, { force: true })
        else
          found.push({
            id,
            name: value.name,
            path: value.path,
            stamp: value.stamp,
            text: value.text,
            kept: value.kept,
          })
      }
      return found.sort((a, b) => b.kept.localeCompare(a.kept)).slice(0, MOST)
    },
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

/** Whether another process still has it in hand; one of another machine is taken to. */
function runsElsewhere({ id, host }: { readonly id: number; readonly host: string }): boolean {
  if (host !== hostname()) return true
  if (id === process.pid) return false
  try {
    process.kill(id, 0)
    return true
  } catch (error) {
    return systemCode(error) === 'EPERM'
  }
}
