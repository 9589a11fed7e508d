/** What the user set for this program on this machine. */
import type { Settings, SettingsReply } from '../../src-core/bridge/bookContract.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import { ask } from './ask.ts'
import type { DisplayUnits } from '../../src-core/units/format.ts'
import type { JobStore } from './document.svelte.ts'
import type { Session, Theme } from './session.svelte.ts'

export class SettingsStore {
  readonly #host: Host
  readonly #session: Session
  readonly #jobs: JobStore
  values: Settings = $state.raw({ theme: 'system', person: '', owner: '' })
  bookFolder: string = $state('')
  #setAside: string | null = null

  constructor(host: Host, session: Session, jobs: JobStore) {
    this.#jobs = jobs
    this.#host = host
    this.#session = session
  }

  async start(): Promise<void> {
    const reply = await ask(this.#session, this.#host.readSettings())
    if (!reply) return
    this.#take(reply)
    this.#setAside = reply.setAside
  }

  /** Says that the settings were damaged; to be called once the first job stands, which clears what was said before. */
  tell(): void {
    if (this.#setAside !== null)
      this.#session.notice = {
        kind: 'fault',
        text: `The settings were damaged. They were set aside as ${this.#setAside}, and the usual ones are in use.`,
      }
    this.#setAside = null
  }

  async set(change: Partial<Settings>): Promise<void> {
    const next = { ...this.values, ...change }
    this.values = next
    this.#session.theme = next.theme
    if (next.units) this.#jobs.showIn(next.units)
    const reply = await ask(this.#session, this.#host.writeSettings(next))
    if (reply) this.#take(reply)
  }

  setTheme(theme: Theme): void {
    void this.set({ theme })
  }

  setUnits(units: DisplayUnits): void {
    void this.set({ units })
  }

  async chooseBookFolder(): Promise<void> {
    const reply = await ask(this.#session, this.#host.chooseBookFolder())
    if (reply) this.#take(reply)
  }

  async showLog(): Promise<void> {
    await ask(this.#session, this.#host.showLog())
  }

  #take(reply: SettingsReply): void {
    this.values = reply.settings
    this.bookFolder = reply.bookFolder
    this.#session.theme = reply.settings.theme
    if (reply.settings.units) this.#jobs.showIn(reply.settings.units)
  }
}
