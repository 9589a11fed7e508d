export interface BenchRow {
  readonly name: string
  readonly ms: number
  /** What it is measured against in the same run. */
  readonly ratio?: string
}

/** Median of `runs` timed calls in ms, after a few that are not counted. */
export async function median(run: () => unknown, runs = 15, warmUp = 3): Promise<number> {
  const times: number[] = []
  for (let i = 0; i < runs + warmUp; i++) {
    const start = performance.now()
    await run()
    if (i >= warmUp) times.push(performance.now() - start)
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!
}

export const times = (other: number, ours: number): string =>
  other >= ours ? `${(other / ours).toFixed(1)} × faster` : `${(ours / other).toFixed(1)} × slower`
