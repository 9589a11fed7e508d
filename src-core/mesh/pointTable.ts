/** Numbers points of an integer grid, 0 to 2²⁵ along each axis, equal ones alike. */
export class PointTable {
  readonly xs: number[] = []
  readonly ys: number[] = []
  private readonly numbers = new Map<number, number>()

  get count(): number {
    return this.xs.length
  }

  add(x: number, y: number): number {
    const key = x * 2 ** 26 + y
    let number = this.numbers.get(key)
    if (number === undefined) {
      number = this.xs.length
      this.numbers.set(key, number)
      this.xs.push(x)
      this.ys.push(y)
    }
    return number
  }
}
