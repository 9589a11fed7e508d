/** Numbers that look random and come again with the same seed (xorshift, Marsaglia 2003). */
export interface Random {
  /** From 0 to below 1. */
  next(): number
  of<T>(things: readonly T[]): T
}

export function createRandom(seed: number): Random {
  let state = (seed * 2654435761) | 0 || 1
  const next = () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
  return { next, of: (things) => things[Math.floor(next() * things.length)]! }
}
