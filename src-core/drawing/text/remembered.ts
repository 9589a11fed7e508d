/** A function of one number that works each out once: a block is tried in many regions before it is set in one. */
export function remembered<T>(work: (of: number) => T): (of: number) => T {
  const known = new Map<number, T>()
  return (of) => {
    if (!known.has(of)) known.set(of, work(of))
    return known.get(of)!
  }
}
