/** What is chosen on the board, from the keyboard: stepped through, moved by arrow keys or by what is typed. */
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { isPrism } from '../../../src-core/job/schema.ts'
import { setRing } from '../edits/bodies.ts'
import { moveRings } from '../edits/bodyCopies.ts'
import { keyStep, roundTo } from '../snap.ts'
import type { DrawPort } from './drawPort.ts'
import { findRing, ringRefs } from './grips.ts'
import { boxCentre, boxesCentre, deleteVertex, moveEdge, moveVertex, translate } from './rings.ts'
import { sameRing, type RingRef } from './snapping.ts'
import type { Typed } from './typedPoint.ts'

export class Chosen {
  readonly #port: DrawPort

  constructor(port: DrawPort) {
    this.#port = port
  }

  get prompt(): string {
    const { chosen, vertex, edge, together } = this.#port
    if (!chosen)
      return 'Drag a point, an edge or its middle; double-click an edge for a new point; Shift-click for several rings'
    if (together.length > 1) return `${together.length} rings move by, or their middle to`
    if (vertex !== null) return `Point ${vertex + 1} goes to, or by`
    if (edge !== null) return `Edge ${edge + 1} moves by`
    return chosen.ring === 0
      ? 'The outline with its holes moves by, or its middle to'
      : 'The hole moves by, or its middle to'
  }
  /** Where `by` counts from: the point, the edge's start, the ring's middle. */
  get last(): Point | null {
    const { chosen, vertex, edge, together } = this.#port
    const ring = chosen && this.#ring(chosen)
    if (!ring) return null
    if (together.length > 1) return boxesCentre(together.map((r) => this.#ring(r) ?? ring))
    const v = ring[vertex ?? edge ?? -1]
    return v ? { x: v.x, y: v.y } : boxCentre(ring)
  }

  key(name: string): boolean {
    const { chosen, vertex, edge } = this.#port
    if ((name === 'Delete' || name === 'Backspace') && chosen && vertex !== null) {
      const ring = this.#ring(chosen)
      if (!ring || ring.length <= 2) return true
      this.#port.begin('Delete a vertex')
      this.#port.replace(setRing(this.#port.job, chosen.body, chosen.ring, deleteVertex(ring, vertex)))
      this.#port.commit()
      this.#port.choose(chosen, null)
      return true
    }
    const step = /^(Shift\+)?Arrow(Left|Right|Up|Down)$/.exec(name)
    if (step && chosen) {
      this.#nudge(chosen, step[2]!, keyStep(this.#port.job.displayUnits, Boolean(step[1])))
      return true
    }
    if ((name === 'e' || name === 'E') && chosen && (vertex !== null || edge !== null)) {
      this.#port.choose(chosen, edge, vertex)
      return true
    }
    if (name === '.' || name === ',') return this.#step(name === '.' ? 1 : -1)
    if (name === 'PageDown' || name === 'PageUp') return this.#stepRing(name === 'PageDown' ? 1 : -1)
    if (name === 'Shift+PageDown' || name === 'Shift+PageUp')
      return this.#addRing(name === 'Shift+PageDown' ? 1 : -1)
    if (name === 'Escape' && chosen) {
      this.#port.choose(vertex === null && edge === null ? null : chosen, null)
      return true
    }
    return false
  }
  /** What is chosen goes to a typed point, or by a step from where it is. */
  typed(entry: Typed): string | null {
    const { chosen } = this.#port
    const from = this.last
    if (entry.kind === 'refused') return entry.reason
    if (!chosen || !from) return 'Choose a point, an edge or a ring first, then type where it goes.'
    if (entry.kind !== 'point')
      return 'One number is not enough here: type where it goes (40, 20) or a step (by 10, 0).'
    if (this.#port.edge !== null && !entry.relative)
      return 'An edge is moved by a step: by 10, 0, or by 5 at 90. Its length and direction have their own fields.'
    return this.#move(chosen, { x: entry.point.x - from.x, y: entry.point.y - from.y })
  }

  #nudge(ref: RingRef, way: string, by: number): void {
    this.#move(ref, {
      x: way === 'Left' ? -by : way === 'Right' ? by : 0,
      y: way === 'Down' ? -by : way === 'Up' ? by : 0,
    })
  }
  /** Moves the chosen vertex, edge or ring in one step. */
  #move(ref: RingRef, by: Point): string | null {
    const { vertex, edge, job } = this.#port
    const ring = this.#ring(ref)
    if (!ring) return 'That ring is gone.'
    const at = vertex === null ? null : ring[vertex]
    const put = (next: Ring) => setRing(job, ref.body, ref.ring, next)
    const { together } = this.#port
    const rings = together.length > 1 ? `Move ${together.length} rings` : 'Move a ring'
    this.#port.begin(at ? 'Move a vertex' : edge !== null ? 'Move an edge' : rings)
    this.#port.replace(
      at && vertex !== null
        ? put(moveVertex(ring, vertex, { x: roundTo(at.x + by.x, 1e-4), y: roundTo(at.y + by.y, 1e-4) }))
        : edge !== null
          ? put(moveEdge(ring, edge, by))
          : moveRings(job, together, (r) => translate(r, by)),
    )
    this.#port.commit()
    return null
  }
  /** Round through the vertices of the chosen ring. */
  #step(by: number): boolean {
    const { chosen, vertex, edge } = this.#port
    const ring = chosen && this.#ring(chosen)
    if (!chosen || !ring) return this.#stepRing(by)
    const now = vertex ?? edge
    const next = now === null ? (by > 0 ? 0 : ring.length - 1) : (now + by + ring.length) % ring.length
    this.#port.choose(chosen, edge === null ? next : null, next)
    return true
  }
  #stepRing(by: number): boolean {
    const { chosen, job } = this.#port
    const all = job.part.bodies.filter(isPrism).flatMap(ringRefs)
    const now = all.findIndex((r) => sameRing(r, chosen))
    const next = all[now < 0 ? 0 : (now + by + all.length) % all.length]
    if (next) this.#port.choose(next, null)
    return next !== undefined
  }

  /** The next ring that is not chosen yet, with those that are. */
  #addRing(by: number): boolean {
    const { chosen, together, job } = this.#port
    if (!chosen) return this.#stepRing(by)
    const all = job.part.bodies.filter(isPrism).flatMap(ringRefs)
    const now = all.findIndex((r) => sameRing(r, chosen))
    const n = all.length
    const next = all
      .map((_, k) => all[(((now + by * (k + 1)) % n) + n) % n]!)
      .find((r) => !together.some((t) => sameRing(t, r)))
    if (next) this.#port.toggle(next)
    return true
  }

  #ring(ref: RingRef): Ring | null {
    return findRing(this.#port.job.part, ref)
  }
}
