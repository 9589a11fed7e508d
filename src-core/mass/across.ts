/** Bodies that lie across the spindle axis: where they stand, exact moments, and as upright blocks. Part frame. */
import { edgesBox, ringEdges } from '../geometry/edges.ts'
import { pileOf } from '../geometry/pile.ts'
import { regionMoments } from '../geometry/ringMoments.ts'
import { facingPose } from '../geometry/space/facing.ts'
import type { Pose } from '../geometry/space/pose.ts'
import type { Point } from '../geometry/types.ts'
import { bodyFaults } from '../job/faults.ts'
import type { Prism } from '../job/schema.ts'
import { poseMass, prismMass, type MassMoments } from './massMoments.ts'

export type AcrossBody = Prism & { readonly across: number }

/** The frame that its outline is drawn in; its thickness goes along n from its base. */
export const acrossPose = ({ across }: Pick<AcrossBody, 'across'>): Pose => facingPose({ x: 0, y: 0 }, across)

/** An upright block of a body that lies across. */
export interface AcrossBlock {
  readonly ring: readonly Point[]
  /** Heights above the part's seat, mm. */
  readonly z0: number
  readonly z1: number
}

/**
 * A body that lies across as upright blocks; one block about all of it while its outline is faulty, which the polygon
 * library may not return from. @param stairs as of `pileOf`.
 */
export function acrossBlocks(body: AcrossBody, stairs: 'outside' | 'inside' | 'middle'): AcrossBlock[] {
  const { u, n } = acrossPose(body)
  const [e0, e1] = [body.base, body.base + body.thickness]
  const at = (a: number, e: number): Point => ({ x: a * u.x + e * n.x, y: a * u.y + e * n.y })
  const pile = bodyFaults(body).length > 0 ? [edgesBox(ringEdges(body.outline))] : pileOf(body, stairs)
  return pile.map(({ x0, x1, y0, y1 }) => ({
    ring: [at(x0, e0), at(x1, e0), at(x1, e1), at(x0, e1)],
    z0: y0,
    z1: y1,
  }))
}

/** Exact. @param density kg/mm³ */
export function acrossMass(body: AcrossBody, density: number): MassMoments {
  const { base, thickness } = body
  return poseMass(prismMass(regionMoments(body), base, base + thickness, density), acrossPose(body))
}
