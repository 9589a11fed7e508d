/** Paths of the jobs opened or saved last, newest first. */
import { stat } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import { readKept, writeKept } from './keptJson.ts'
import { inTurn } from './turns.ts'

const MOST = 12
const schema = z.strictObject({ paths: z.array(z.string().min(1).max(10_000)).max(100) })

export interface Recent {
  list(): Promise<string[]>
  add(path: string): Promise<void>
  clear(): Promise<void>
}

export function createRecent(userData: string): Recent {
  const file = join(userData, 'recent.json')
  const paths = async () => (await readKept(file, schema, 2_000_000)).value?.paths ?? []
  return {
    list: () =>
      inTurn(file, async () => {
        const all = await paths()
        const there = await Promise.all(all.map(isFile))
        return all.filter((_, i) => there[i])
      }),
    add: (path) =>
      inTurn(file, async () => {
        const before = await paths()
        if (before[0] === path) return
        await writeKept(file, { paths: [path, ...before.filter((p) => p !== path)].slice(0, MOST) })
      }),
    clear: () => inTurn(file, () => writeKept(file, { paths: [] })),
  }
}

async function isFile(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isFile()
  } catch {
    return false
  }
}
