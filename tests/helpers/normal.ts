/** Seeded standard normal numbers, for Monte Carlo runs. */

/** Box and Muller's polar method (Marsaglia), from the given seed. */
export function normals(seed: number): () => number {
  const random = seeded32(seed)
  let spare: number | null = null
  return () => {
    if (spare !== null) {
      const value = spare
      spare = null
      return value
    }
    for (;;) {
      const u = 2 * random() - 1
      const v = 2 * random() - 1
      const s = u * u + v * v
      if (s === 0 || s >= 1) continue
      const f = Math.sqrt((-2 * Math.log(s)) / s)
      spare = v * f
      return u * f
    }
  }
}

/** mulberry32: longer and better mixed than a linear congruence. */
function seeded32(seed: number): () => number {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

/** The value below which `share` of the sample lies. */
export function quantile(sample: Float64Array, share: number): number {
  return sample.slice().sort()[Math.ceil(share * sample.length) - 1]!
}
