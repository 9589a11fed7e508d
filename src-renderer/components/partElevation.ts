/** The part from its side as it is drawn: x across as in the plan above it, height above the seat upward. mm, part frame. */
import { boxAround } from '../../src-core/geometry/polygonBox.ts'
import { isPrism, liesAcross, type Part, type Prism } from '../../src-core/job/schema.ts'
import { bodyShapes } from '../../src-core/mounting/bodyShapes.ts'
import { ringBox } from '../editor/draw/rings.ts'

interface ElevationBox {
  readonly id: string
  readonly kind: 'body' | 'pocket' | 'bore'
  readonly x0: number
  readonly x1: number
  readonly z0: number
  readonly z1: number
}

export interface Elevation {
  /** Furthest back first. */
  readonly boxes: readonly ElevationBox[]
  readonly x0: number
  readonly x1: number
  readonly z0: number
  readonly z1: number
}

/** A body that lies across as its pieces look from in front. */
function fromItsSide(body: Prism): Pick<ElevationBox, 'x0' | 'x1' | 'z0' | 'z1'> {
  if (!liesAcross(body)) {
    const { x0, x1 } = ringBox(body.outline)
    return { x0, x1, z0: body.base, z1: body.base + body.thickness }
  }
  const shapes = bodyShapes(body)
  const plan = boxAround(shapes.flatMap((s) => s.regions.map((r) => ringBox(r.outline))))
  return {
    x0: plan.x0,
    x1: plan.x1,
    z0: Math.min(...shapes.map((s) => s.z0)),
    z1: Math.max(...shapes.map((s) => s.z1)),
  }
}

/** Null where there is nothing but meshes, which have no base and thickness. */
export function partElevation(part: Part): Elevation | null {
  const prisms = part.bodies.filter(isPrism).filter((b) => b.outline.length > 1)
  const boxes = prisms.map((b): ElevationBox => {
    const kind = b.effect === 'adds' ? 'body' : 'pocket'
    return { id: b.id, kind, ...fromItsSide(b) }
  })
  if (boxes.length === 0) return null
  const z0 = Math.min(0, ...boxes.map((b) => b.z0))
  const z1 = Math.max(...boxes.map((b) => b.z1))
  const bores = part.bores.map((b): ElevationBox => {
    const top = Math.max(z0, ...boxes.filter((x) => x.kind === 'body').map((x) => x.z1))
    const bottom = b.depth === null ? z0 : top - b.depth
    return { id: b.id, kind: 'bore', x0: b.x - b.diameter / 2, x1: b.x + b.diameter / 2, z0: bottom, z1: top }
  })
  const order = { body: 0, pocket: 1, bore: 2 } as const
  const all = [...boxes, ...bores].sort((a, b) => order[a.kind] - order[b.kind])
  return { boxes: all, x0: Math.min(...all.map((b) => b.x0)), x1: Math.max(...all.map((b) => b.x1)), z0, z1 }
}
