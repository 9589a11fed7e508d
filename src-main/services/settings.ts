/** What the user set for this program on this machine. Damaged settings are set aside, never fatal. */
import { join, resolve } from 'node:path'
import { z } from 'zod'
import type { Settings, SettingsReply } from '../../src-core/bridge/bookContract.ts'
import { readKept, writeKept } from './keptJson.ts'

const LIMIT = 100_000

const stored = z.strictObject({
  theme: z.enum(['system', 'light', 'dark']),
  person: z.string().max(200),
  owner: z.string().max(200),
  units: z.enum(['mm', 'in']).optional(),
  /** Null: the usual place. */
  bookFolder: z.string().min(1).max(10_000).nullable(),
})
type Stored = z.infer<typeof stored>

const FIRST: Stored = { theme: 'system', person: '', owner: '', bookFolder: null }

export interface SettingsStore {
  read(): Promise<SettingsReply>
  write(settings: Settings): Promise<SettingsReply>
  setBookFolder(folder: string): Promise<SettingsReply>
  bookFolder(): Promise<string>
}

/** `fixedBook` is a folder that the environment names; it wins over the setting. `usualBook` is used without either. */
export function createSettings(options: {
  readonly userData: string
  readonly fixedBook: string | null
  readonly usualBook: string
}): SettingsStore {
  const path = join(options.userData, 'settings.json')
  let setAside: string | null = null
  let kept: Promise<Stored> | null = null
  const load = (): Promise<Stored> => (kept ??= first())

  async function first(): Promise<Stored> {
    try {
      const read = await readKept(path, stored, LIMIT)
      setAside = read.setAside
      return read.value ?? FIRST
    } catch (error) {
      kept = null
      throw error
    }
  }
  async function save(next: Stored): Promise<SettingsReply> {
    await writeKept(path, next)
    kept = Promise.resolve(next)
    return reply(next)
  }
  const folderOf = (s: Stored) => resolve(options.fixedBook ?? s.bookFolder ?? options.usualBook)
  const reply = (s: Stored): SettingsReply => ({
    settings: { theme: s.theme, person: s.person, owner: s.owner, ...(s.units ? { units: s.units } : {}) },
    bookFolder: folderOf(s),
    setAside,
  })
  return {
    read: async () => reply(await load()),
    write: async (settings) => save({ ...settings, bookFolder: (await load()).bookFolder }),
    setBookFolder: async (bookFolder) => save({ ...(await load()), bookFolder: resolve(bookFolder) }),
    bookFolder: async () => folderOf(await load()),
  }
}
