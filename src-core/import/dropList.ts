import type { Dropped } from './types.ts'

/** Gathers what was dropped, alike things together. */
export class DropList {
  private readonly entries = new Map<string, { kind: string; count: number; reason: string; place: string }>()
  private static readonly MOST = 200

  add(kind: string, reason: string, place: string, count = 1): void {
    const key = `${kind}\n${reason}`
    const entry = this.entries.get(key)
    if (entry) entry.count += count
    else if (this.entries.size < DropList.MOST) this.entries.set(key, { kind, count, reason, place })
    else this.addRest(count)
  }

  private addRest(count: number): void {
    const rest = this.entries.get('')
    if (rest) rest.count += count
    else
      this.entries.set('', {
        kind: 'other',
        count,
        reason: 'further elements, for many other reasons',
        place: '',
      })
  }

  list(): Dropped[] {
    return [...this.entries.values()]
  }
}
