/** A binary heap: the item that comes before all others first; of equals the one put in first. */
export class Heap<T> {
  private readonly items: { readonly value: T; readonly turn: number }[] = []
  private readonly before: (a: T, b: T) => number
  private turn = 0

  /** @param before negative where the first comes before the second. */
  constructor(before: (a: T, b: T) => number) {
    this.before = before
  }

  get size(): number {
    return this.items.length
  }

  push(value: T): void {
    const { items } = this
    let i = items.length
    items.push({ value, turn: this.turn++ })
    while (i > 0) {
      const parent = (i - 1) >> 1
      if (!this.first(i, parent)) return
      this.swap(i, parent)
      i = parent
    }
  }

  pop(): T | undefined {
    const { items } = this
    const top = items[0]
    const last = items.pop()
    if (!top || !last) return undefined
    if (items.length === 0) return top.value
    items[0] = last
    for (let i = 0; ;) {
      let least = i
      for (const child of [2 * i + 1, 2 * i + 2])
        if (child < items.length && this.first(child, least)) least = child
      if (least === i) return top.value
      this.swap(i, least)
      i = least
    }
  }

  private first(i: number, j: number): boolean {
    const a = this.items[i]!
    const b = this.items[j]!
    const order = this.before(a.value, b.value)
    return order < 0 || (order === 0 && a.turn < b.turn)
  }

  private swap(i: number, j: number): void {
    const held = this.items[i]!
    this.items[i] = this.items[j]!
    this.items[j] = held
  }
}
