/** Work that must not overlap: each piece starts once the one before has ended, well or badly. */
export class Turns {
  #last: Promise<unknown> = Promise.resolve()

  take<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#last.then(work, work)
    this.#last = mine
    return mine
  }
}
