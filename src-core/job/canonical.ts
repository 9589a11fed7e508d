/** A value as text that tells whether two hold the same. */

const NOTHING: ReadonlySet<string> = new Set()

/**
 * JSON with keys in the alphabet's order: equal content gives equal text whatever the order of keys, and a field that is
 * null is as one that is not there. @param leftOut names of fields that do not count, wherever they stand.
 */
export function canonical(value: unknown, leftOut: ReadonlySet<string> = NOTHING): string {
  if (Array.isArray(value)) return `[${value.map((v) => canonical(v, leftOut)).join(',')}]`
  if (value === null || typeof value !== 'object') return JSON.stringify(value === 0 ? 0 : (value ?? null))
  const fields = Object.entries(value)
    .filter(([key, v]) => v !== undefined && v !== null && !leftOut.has(key))
    .sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${fields.map(([key, v]) => `${JSON.stringify(key)}:${canonical(v, leftOut)}`).join(',')}}`
}
