import { startBench, type Bench } from '../tests/interface/window.ts'

/** What `measure` gives of the built window in the installed browser; nothing, and a word why, where there is none. */
export async function inBrowser<T>(
  what: string,
  measure: (bench: Bench) => Promise<readonly T[]>,
): Promise<readonly T[]> {
  const bench = await startBench().catch((error: unknown) => {
    console.log(`${what}: not measured, ${error instanceof Error ? error.message : String(error)}`)
    return null
  })
  if (!bench) return []
  try {
    return await measure(bench)
  } finally {
    await bench.close()
  }
}
