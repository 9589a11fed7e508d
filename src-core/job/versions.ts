/** Documents of older versions: lifted in memory, step by step; newer ones are refused untouched. */
import type { JobFault } from './fault.ts'

export type Raw = Record<string, unknown>

export const isRecord = (value: unknown): value is Raw =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

export type Step = (raw: Raw) => Raw

/** The document as of version `steps.length + 1`, or why its version is none that this program knows. */
export function liftToNewest(
  document: Raw,
  steps: readonly Step[],
): { readonly ok: true; readonly document: Raw } | { readonly ok: false; readonly fault: JobFault } {
  const { version } = document
  const newest = steps.length + 1
  const refuse = (message: string) => ({ ok: false, fault: { path: 'version', message } }) as const
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse('is not a whole number from 1')
  if (version > newest)
    return refuse(`${version} is newer than this program knows (${newest}); the file was left untouched`)
  return { ok: true, document: lift(document, version, steps) }
}

/** A document of `version` lifted by every step above it, in order. `steps[n]` lifts from version n + 1 to n + 2. */
export function lift(document: Raw, version: number, steps: readonly Step[]): Raw {
  return steps.slice(version - 1).reduce((lifted, step) => step(lifted), document)
}
