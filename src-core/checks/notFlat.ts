/** What does not lie flat on the plate is not judged yet: it stands in the job, is weighed and drawn, and no more. */
import { finding, type Finding } from '../findings/finding.ts'
import { isShelf, liesAcross } from '../job/schema.ts'
import { KIND_WORDS } from '../hardware/words.ts'
import type { Mounted } from '../mounting/types.ts'

export function notFlatFindings({ job, setup }: Mounted): Finding[] {
  const shelves = setup.hardware.filter(isShelf)
  const bodies = job.part.bodies.filter(liesAcross)
  const said = (item: string, what: string) =>
    finding(
      'caution',
      'not-flat-unjudged',
      item,
      `${what} is not judged yet: what it holds and meets is not known. Do not run this setup on this verdict.`,
    )
  return [
    ...shelves.map((h) => said(h.id, `The ${KIND_WORDS[h.kind]} ${h.id}`)),
    ...bodies.map((b) => said('part', `Body ${b.id}, which lies across,`)),
  ]
}
