/** Vertices, edges and arcs of what is drawn already: grab and drag; with Shift several rings are chosen. */
import type { Point } from '../../../src-core/geometry/types.ts'
import { setRing } from '../edits/bodies.ts'
import { Grab } from '../grab.ts'
import { type PointerInput } from '../port.ts'
import { Chosen } from './chosen.ts'
import type { DrawPort, DrawPreview, DrawTool } from './drawPort.ts'
import { REACH } from '../reach.ts'
import { gripDrag } from './gripDrag.ts'
import { findRing, gripAt, shareAlong, type Grip } from './grips.ts'
import { splitEdge } from './rings.ts'
import { sameRing, type RingRef } from './snapping.ts'
import type { Typed } from './typedPoint.ts'

export class EditTool extends Grab<Grip, DrawPreview> implements DrawTool {
  readonly name = 'edit'
  readonly said = ''
  readonly #port: DrawPort
  readonly #chosen: Chosen
  #over: Grip | null = null
  #lastDown: { at: Point; time: number } | null = null

  constructor(port: DrawPort) {
    super(port, {
      find: (input) => this.#grip(input),
      hover: (grip) => (this.#over = grip),
      click: (grip, input) => this.#click(grip, input),
      drag: (grip, from) => {
        const drag = gripDrag(port, grip, from)
        if (drag) this.#choose(grip)
        return drag
      },
      show: (preview) => port.preview(preview),
    })
    this.#port = port
    this.#chosen = new Chosen(port)
  }

  get prompt(): string {
    return this.#chosen.prompt
  }
  get last(): Point | null {
    return this.#chosen.last
  }

  get cursor(): string {
    if (this.moves === 'picture') return 'grabbing'
    return this.#over === null ? 'default' : this.#over.kind === 'ring' ? 'move' : 'pointer'
  }

  key(name: string): boolean {
    return this.#chosen.key(name)
  }
  typed(entry: Typed): string | null {
    return this.#chosen.typed(entry)
  }

  #click(grip: Grip | null, input: PointerInput): void {
    const at = input.screen
    const again =
      this.#lastDown &&
      Math.hypot(at.x - this.#lastDown.at.x, at.y - this.#lastDown.at.y) < REACH.dragStart &&
      input.time - this.#lastDown.time < REACH.doubleClick
    this.#lastDown = again ? null : { at, time: input.time }
    if (input.shift && grip && this.#port.chosen) return this.#port.toggle(grip.ref)
    if (again && grip && (grip.kind === 'edge' || grip.kind === 'bulge'))
      return this.#split(grip.ref, grip.index, input)
    if (grip && this.#isOfSeveral(grip)) return this.#port.choose(grip.ref, null)
    this.#choose(grip)
  }
  #isOfSeveral(grip: Grip): boolean {
    const { together } = this.#port
    return together.length > 1 && together.some((r) => sameRing(r, grip.ref))
  }
  #choose(grip: Grip | null): void {
    // Of several rings any is taken hold of for all.
    if (grip && this.#isOfSeveral(grip)) return
    if (!grip || grip.kind === 'ring') this.#port.choose(grip?.ref ?? null, null)
    else if (grip.kind === 'vertex') this.#port.choose(grip.ref, grip.index)
    else this.#port.choose(grip.ref, null, grip.index)
  }

  #split(ref: RingRef, index: number, input: PointerInput): void {
    const ring = findRing(this.#port.job.part, ref)
    if (!ring) return
    const share = shareAlong(ring, index, this.#port.toPart(input.world))
    this.#port.begin('Add a vertex')
    this.#port.replace(setRing(this.#port.job, ref.body, ref.ring, splitEdge(ring, index, share)))
    this.#port.commit()
    this.#port.choose(ref, index + 1)
  }

  #grip(input: PointerInput): Grip | null {
    const { job, chosen } = this.#port
    const several = this.#port.together.length > 1
    const p = this.#port.toPart(input.world)
    // Points and middles are those of one ring.
    const grip = gripAt(job.part, several ? null : chosen, p, input.pxPerMm, input.touch)
    return grip && this.#isOfSeveral(grip) ? { kind: 'ring', ref: grip.ref } : grip
  }
}
