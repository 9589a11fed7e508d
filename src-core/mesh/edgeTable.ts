/** Undirected edges between numbered vertices, each with how often it is used and the balance of its directions. */
export class EdgeTable {
  count = 0
  /** The smaller and the larger vertex of each edge. */
  readonly low: Int32Array
  readonly high: Int32Array
  /** Uses from low to high less uses from high to low. */
  readonly net: Int32Array
  readonly uses: Int32Array
  private readonly table: Int32Array
  private readonly mask: number

  /** @param most the largest number of distinct edges that will be added. */
  constructor(most: number) {
    this.low = new Int32Array(most)
    this.high = new Int32Array(most)
    this.net = new Int32Array(most)
    this.uses = new Int32Array(most)
    const size = 2 ** Math.ceil(Math.log2(Math.max(16, 1.5 * most)))
    this.mask = size - 1
    this.table = new Int32Array(size).fill(-1)
  }

  /** Uses the edge from a to b `times` times; a and b must differ. Returns its number. */
  add(a: number, b: number, times = 1): number {
    const low = a < b ? a : b
    const high = a < b ? b : a
    let h = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca77)
    h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d)
    let slot = (h ^ (h >>> 13)) & this.mask
    let e = this.table[slot]!
    while (e >= 0 && !(this.low[e] === low && this.high[e] === high)) {
      slot = (slot + 1) & this.mask
      e = this.table[slot]!
    }
    if (e < 0) {
      e = this.count++
      this.table[slot] = e
      this.low[e] = low
      this.high[e] = high
    }
    this.net[e] = this.net[e]! + (a < b ? times : -times)
    this.uses[e] = this.uses[e]! + Math.abs(times)
    return e
  }
}
