/** Work that must not meet other work on the same thing is done in the order in which it was asked for. */
const last = new Map<string, Promise<unknown>>()

/** Does `work` once all that was asked for `key` before is over, well or not. */
export function inTurn<T>(key: string, work: () => Promise<T>): Promise<T> {
  const before = last.get(key) ?? Promise.resolve()
  const turn = before.then(work, work)
  last.set(key, turn)
  const forget = () => {
    if (last.get(key) === turn) last.delete(key)
  }
  turn.then(forget, forget)
  return turn
}
