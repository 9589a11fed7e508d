/** Vertices, edges and bulges of what is drawn already: grab and drag. */
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { isPrism, type Job } from '../../../src-core/job/schema.ts'
import { setRing } from '../edits/bodies.ts'
import { DRAG_START_PX, hasDragged, type PointerInput } from '../port.ts'
import { roundTo } from '../snap.ts'
import type { DrawPort, DrawTool } from './drawPort.ts'
import { moveRings } from '../edits/bodyCopies.ts'
import { boxCentre, deleteVertex, moveEdge, moveVertex, setBulge, splitEdge, translate } from './rings.ts'
import { bulgeFor, findRing, gripAt, ringRefs, shareAlong, type Grip } from './grips.ts'
import { sameRing, type RingRef } from './snapping.ts'
import type { Typed } from './typedPoint.ts'

type State =
  | { readonly name: 'idle' }
  | { readonly name: 'pressed'; readonly grip: Grip | null; readonly input: PointerInput }
  | {
      readonly name: 'dragging'
      readonly grip: Grip
      readonly from: Point
      readonly ring: Ring
      readonly job: Job
    }
  | { readonly name: 'panning'; readonly last: PointerInput }

export class EditTool implements DrawTool {
  readonly name = 'edit'
  readonly said = ''
  readonly #port: DrawPort
  #state: State = { name: 'idle' }
  #over: Grip | null = null
  #lastDown: { at: Point; time: number } | null = null

  constructor(port: DrawPort) {
    this.#port = port
  }

  get prompt(): string {
    const { chosen, vertex, edge } = this.#port
    if (!chosen) return 'Drag a point, an edge or its middle; double-click an edge for a new point'
    if (vertex !== null) return `Point ${vertex + 1} goes to, or by`
    if (edge !== null) return `Edge ${edge + 1} moves by`
    return chosen.ring === 0
      ? 'The outline with its holes moves by, or its middle to'
      : 'The hole moves by, or its middle to'
  }
  /** Where `by` counts from: the point, the edge's start, the ring's middle. */
  get last(): Point | null {
    const { chosen, vertex, edge } = this.#port
    const ring = chosen && this.#ring(chosen)
    if (!ring) return null
    const v = ring[vertex ?? edge ?? -1]
    return v ? { x: v.x, y: v.y } : boxCentre(ring)
  }

  get cursor(): string {
    if (this.#state.name === 'panning') return 'grabbing'
    return this.#over === null ? 'default' : this.#over.kind === 'ring' ? 'move' : 'pointer'
  }

  down(input: PointerInput): void {
    this.cancel()
    const grip = this.#grip(input)
    this.#state = { name: 'pressed', grip, input }
  }
  move(input: PointerInput): void {
    const state = this.#state
    switch (state.name) {
      case 'idle':
        this.#over = this.#grip(input)
        return
      case 'pressed':
        if (!hasDragged(state.input, input)) return
        return this.#start(state.grip, state.input, input)
      case 'panning':
        this.#port.pan(input.screen.x - state.last.screen.x, input.screen.y - state.last.screen.y)
        this.#state = { name: 'panning', last: input }
        return
      case 'dragging':
        return this.#drag(state, input)
    }
  }
  up(input: PointerInput): void {
    const state = this.#state
    this.#state = { name: 'idle' }
    this.#port.preview(null)
    if (state.name === 'dragging') this.#port.commit()
    if (state.name === 'pressed') this.#click(state.grip, input)
  }
  cancel(): void {
    if (this.#state.name === 'dragging') this.#port.cancel()
    this.#state = { name: 'idle' }
    this.#port.preview(null)
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
      this.#nudge(chosen, step[2]!, step[1] ? 0.1 : 1)
      return true
    }
    if ((name === 'e' || name === 'E') && chosen && (vertex !== null || edge !== null)) {
      this.#port.choose(chosen, edge, vertex)
      return true
    }
    if (name === '.' || name === ',') return this.#step(name === '.' ? 1 : -1)
    if (name === 'PageDown' || name === 'PageUp') return this.#stepRing(name === 'PageDown' ? 1 : -1)
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
    this.#port.begin(at ? 'Move a vertex' : edge !== null ? 'Move an edge' : 'Move a ring')
    this.#port.replace(
      at && vertex !== null
        ? put(moveVertex(ring, vertex, { x: roundTo(at.x + by.x, 1e-4), y: roundTo(at.y + by.y, 1e-4) }))
        : edge !== null
          ? put(moveEdge(ring, edge, by))
          : moveRings(job, ref, (r) => translate(r, by)),
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

  #start(grip: Grip | null, from: PointerInput, now: PointerInput): void {
    const ring = grip && this.#ring(grip.ref)
    if (!grip || !ring) {
      this.#port.pan(now.screen.x - from.screen.x, now.screen.y - from.screen.y)
      this.#state = { name: 'panning', last: now }
      return
    }
    this.#choose(grip)
    const what = {
      vertex: 'Move a vertex',
      bulge: 'Bend an edge',
      edge: 'Move an edge',
      ring: 'Move a ring',
    }[grip.kind]
    this.#port.begin(what)
    const state = {
      name: 'dragging',
      grip,
      from: this.#port.toPart(from.world),
      ring,
      job: this.#port.job,
    } as const
    this.#state = state
    this.#drag(state, now)
  }

  #drag(state: Extract<State, { name: 'dragging' }>, input: PointerInput): void {
    const { grip, ring, from, job } = state
    const raw = this.#port.toPart(input.world)
    const step = input.alt ? 0.01 : this.#port.step(input.pxPerMm)
    const by = { x: roundTo(raw.x - from.x, step), y: roundTo(raw.y - from.y, step) }
    const show = (at: Point, text: string, snapped: boolean) =>
      this.#port.preview({ path: [], closed: false, at, text, snapped })
    const put = (next: Ring) => this.#port.replace(setRing(job, grip.ref.body, grip.ref.ring, next))
    const { length } = this.#port
    switch (grip.kind) {
      case 'vertex': {
        const n = ring.length
        const snapped = this.#port.snap(input, ring[(grip.index + n - 1) % n]!, {
          ref: grip.ref,
          vertex: grip.index,
        })
        put(moveVertex(ring, grip.index, snapped.point))
        return show(
          snapped.point,
          [snapped.text, `${length(snapped.point.x)}, ${length(snapped.point.y)}`].filter(Boolean).join('  '),
          snapped.text !== '',
        )
      }
      case 'bulge': {
        const a = ring[grip.index]!
        const b = ring[(grip.index + 1) % ring.length]!
        const bulge = bulgeFor(a, b, raw, input.pxPerMm, input.alt)
        put(setBulge(ring, grip.index, bulge))
        const half = bulge === 0 ? 'straight' : Math.abs(Math.abs(bulge) - 1) < 1e-9 ? 'half turn' : ''
        const radius =
          bulge === 0
            ? ''
            : `R ${length((Math.hypot(b.x - a.x, b.y - a.y) * (1 + bulge * bulge)) / (4 * Math.abs(bulge)))}`
        return show(raw, [half, radius].filter(Boolean).join('  '), half !== '')
      }
      case 'edge':
        put(moveEdge(ring, grip.index, by))
        return show(raw, `x ${length(by.x)}, y ${length(by.y)}`, false)
      case 'ring':
        this.#port.replace(moveRings(job, grip.ref, (r) => translate(r, by)))
        return show(raw, `x ${length(by.x)}, y ${length(by.y)}`, false)
    }
  }

  #click(grip: Grip | null, input: PointerInput): void {
    const at = input.screen
    const again =
      this.#lastDown &&
      Math.hypot(at.x - this.#lastDown.at.x, at.y - this.#lastDown.at.y) < DRAG_START_PX &&
      input.time - this.#lastDown.time < 450
    this.#lastDown = again ? null : { at, time: input.time }
    if (again && grip && (grip.kind === 'edge' || grip.kind === 'bulge'))
      return this.#split(grip.ref, grip.index, input)
    this.#choose(grip)
  }
  #choose(grip: Grip | null): void {
    if (!grip || grip.kind === 'ring') this.#port.choose(grip?.ref ?? null, null)
    else if (grip.kind === 'vertex') this.#port.choose(grip.ref, grip.index)
    else this.#port.choose(grip.ref, null, grip.index)
  }

  #split(ref: RingRef, index: number, input: PointerInput): void {
    const ring = this.#ring(ref)
    if (!ring) return
    const share = shareAlong(ring, index, this.#port.toPart(input.world))
    this.#port.begin('Add a vertex')
    this.#port.replace(setRing(this.#port.job, ref.body, ref.ring, splitEdge(ring, index, share)))
    this.#port.commit()
    this.#port.choose(ref, index + 1)
  }

  #ring(ref: RingRef): Ring | null {
    return findRing(this.#port.job.part, ref)
  }

  #grip(input: PointerInput): Grip | null {
    const { job, chosen } = this.#port
    return gripAt(job.part, chosen, this.#port.toPart(input.world), input.pxPerMm, input.touch)
  }
}
