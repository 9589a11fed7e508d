/** The joint that holds least, in words for headings and notes. */
import { plain } from '../units/format.ts'
import type { JointRow } from './judged.ts'

/** `2.1 times, weight w1 on its stud`; null where the part's own joint, which always bears its weight, is not judged. */
export function leastJointWords(joints: readonly JointRow[]): string | null {
  const judged = joints.flatMap(({ factor, what }) => (factor === null ? [] : [{ factor, what }]))
  const part = joints.find((j) => j.id === 'part')
  const [first] = judged
  if (!first || !part || part.factor === null) return null
  const least = judged.reduce((a, b) => (b.factor < a.factor ? b : a), first)
  return `${plain(least.factor, 1)} times, ${least.what}`
}
