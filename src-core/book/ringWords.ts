/** Differences of outlines in words: how many vertices changed, and how far they moved. */
import type { Vertex } from '../geometry/types.ts'
import type { Formatter } from '../units/format.ts'

/** Null where the two are not rings, or lists of rings. */
export function ringWords(
  before: readonly unknown[],
  after: readonly unknown[],
  format: Formatter,
): string | null {
  if (isRing(before) && isRing(after)) return vertexWords(before, after, format)
  if (!areRings(before) || !areRings(after)) return null
  if (before.length !== after.length) return `${before.length} → ${after.length}`
  const changed = before.flatMap((ring, i) => {
    const words = vertexWords(ring, after[i]!, format)
    return words === '' ? [] : [`${i + 1} ${words}`]
  })
  return changed.join('; ')
}

function vertexWords(before: readonly Vertex[], after: readonly Vertex[], format: Formatter): string {
  if (before.length !== after.length) return `${before.length} → ${after.length} vertices`
  let moved = 0
  let furthest = 0
  let bent = 0
  let last = 0
  before.forEach((a, i) => {
    const b = after[i]!
    const by = Math.hypot(a.x - b.x, a.y - b.y)
    if (by > 0) {
      moved++
      last = i + 1
    }
    furthest = Math.max(furthest, by)
    if ((a.bulge ?? 0) !== (b.bulge ?? 0)) bent++
  })
  const parts: string[] = []
  if (moved === 1) parts.push(`vertex ${last} moved by ${format.length(furthest)}`)
  if (moved > 1) parts.push(`${moved} vertices moved, by up to ${format.length(furthest)}`)
  if (bent > 0) parts.push(`${bent} ${bent === 1 ? 'edge' : 'edges'} bent otherwise`)
  return parts.join(', ')
}

const isVertex = (v: unknown): v is Vertex => {
  if (typeof v !== 'object' || v === null) return false
  const { x, y } = v as Partial<Vertex>
  return typeof x === 'number' && typeof y === 'number' && !('u' in v)
}
const isRing = (list: readonly unknown[]): list is readonly Vertex[] =>
  list.length > 0 && list.every(isVertex)
const areRings = (list: readonly unknown[]): list is readonly (readonly Vertex[])[] =>
  list.every((r) => Array.isArray(r) && isRing(r))
