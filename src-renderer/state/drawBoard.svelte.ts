/** The drawing board: which tool is in hand, which ring is chosen, what is being drawn. Never saved, never undone. */
import type { Point, Vertex } from '../../src-core/geometry/types.ts'
import type { Job, Part } from '../../src-core/job/schema.ts'
import { setupPlacement } from '../../src-core/mounting/mount.ts'
import { unplacePoint } from '../../src-core/mounting/place.ts'
import type { DrawnAs, DrawPort, DrawPreview, DrawTool, DrawToolName } from '../editor/draw/drawPort.ts'
import { EditTool } from '../editor/draw/editTool.ts'
import { OutlineTool } from '../editor/draw/outlineTool.ts'
import { PhotographTool } from '../editor/draw/photographTool.ts'
import { ShapeTool } from '../editor/draw/shapeTool.ts'
import { findRing } from '../editor/draw/grips.ts'
import { drawTargets, sameRing, snapDraw, type DrawTargets, type RingRef } from '../editor/draw/snapping.ts'
import { addBody, addHoleRing, setRing } from '../editor/edits/bodies.ts'
import { freeStep } from '../editor/snap.ts'
import type { PointerInput } from '../editor/port.ts'
import type { JobStore } from './document.svelte.ts'
import type { Results } from './results.svelte.ts'
import type { Session } from './session.svelte.ts'

export class DrawBoard {
  readonly #jobs: JobStore
  readonly #results: Results
  readonly #session: Session
  #held: DrawTargets | null = null
  #targets: { part: Part; list: DrawTargets } | null = null
  active: boolean = $state(false)
  tool: DrawTool = $state.raw() as DrawTool
  as: DrawnAs = $state('adds')
  #chosen: RingRef | null = $state.raw(null)
  /** Rings chosen besides. */
  #also: readonly RingRef[] = $state.raw([])
  vertex: number | null = $state(null)
  /** Counts up whenever what is chosen should be brought into view. */
  reveal: number = $state(0)
  edge: number | null = $state(null)
  /** mm of the next fillet or chamfer. */
  cornerSize: number = $state(5)
  /** Whether moving, turning, mirroring and copying a ring are shown. */
  movesOpen: boolean = $state(false)
  /** The next move, turn or mirror: about what, how far and how many copies; 0: the ring itself. mm, degrees */
  moves: { about: string; x: number; y: number; turn: number; copies: number } = $state.raw({
    about: 'middle',
    x: 0,
    y: 0,
    turn: 90,
    copies: 0,
  })
  /** The grid that free points catch on, mm; null: it follows the zoom. */
  grid: number | null = $state(null)
  preview: DrawPreview | null = $state.raw(null)
  /** Something has been drawn since the board was entered. */
  #drew = false
  /** Called when the board is left with something drawn. */
  ondrawn: () => void = () => undefined
  /** Moves the picture; the view sets it. */
  pan: (dx: number, dy: number) => void = () => undefined

  constructor(jobs: JobStore, results: Results, session: Session) {
    this.#jobs = jobs
    this.#results = results
    this.#session = session
    this.tool = new EditTool(this.#port())
  }

  get chosen(): RingRef | null {
    return this.#chosen
  }
  set chosen(ref: RingRef | null) {
    this.#chosen = ref
    this.#also = []
  }
  /** The ring chosen and those chosen with it, as far as they are still there; empty where none is. */
  get together(): readonly RingRef[] {
    const { part } = this.#jobs.job
    return this.ring && this.chosen
      ? [this.chosen, ...this.#also.filter((r) => findRing(part, r) !== null)]
      : []
  }

  /** The chosen ring as it is now; null where it is gone. */
  readonly ring: readonly Vertex[] | null = $derived.by(() => {
    return this.#chosen && findRing(this.#jobs.job.part, this.#chosen)
  })

  enter(): void {
    this.active = true
    this.#session.selection = null
    this.#session.hover = null
    this.#session.spindleTurn = null
    this.#session.camera = null
    // Base and thickness are seen from the side.
    this.#session.picture = 'side'
    this.take('edit')
  }
  leave(): void {
    this.tool.cancel()
    this.active = false
    this.preview = null
    this.#session.camera = null
    const drew = this.#drew
    this.#drew = false
    if (drew) this.ondrawn()
  }
  /** The outline of a body anew, point by point. */
  redraw(body: string): void {
    this.enter()
    this.choose({ body, ring: 0 }, null)
    this.as = 'replace'
    this.take('outline')
  }
  /** A ring of the part, and a vertex or an edge of it where one is meant. */
  choose(ref: RingRef | null, vertex: number | null, edge: number | null = null): void {
    this.chosen = ref
    this.vertex = vertex
    this.edge = vertex === null ? edge : null
    if (ref) this.#session.step = 'part'
  }
  /** Takes a ring to those that are chosen, or from them. */
  toggle(ref: RingRef): void {
    const { together } = this
    const isIn = together.some((r) => sameRing(r, ref))
    this.chooseAll(isIn ? together.filter((r) => !sameRing(r, ref)) : [ref, ...together])
  }
  chooseAll([first, ...others]: readonly RingRef[]): void {
    this.choose(first ?? null, null)
    this.#also = others
  }
  take(name: DrawToolName): void {
    this.tool.cancel()
    const port = this.#port()
    this.tool =
      name === 'edit'
        ? new EditTool(port)
        : name === 'outline'
          ? new OutlineTool(port)
          : name === 'photograph'
            ? new PhotographTool(port)
            : new ShapeTool(name, port)
  }
  /** A shape has been begun. */
  get drawing(): boolean {
    void this.preview
    return this.active && !['edit', 'photograph'].includes(this.tool.name) && this.tool.last !== null
  }
  /** Changes the chosen ring in one step. */
  edit(label: string, change: (ring: readonly Vertex[]) => readonly Vertex[]): void {
    const { chosen, ring } = this
    if (!chosen || !ring) return
    this.#jobs.edit(label, (job) => setRing(job, chosen.body, chosen.ring, change(ring)))
  }

  step(pxPerMm: number): number {
    return this.grid ?? freeStep(pxPerMm, this.#jobs.job.displayUnits)
  }

  /** What there is to catch on, kept while one thing is dragged: nothing else moves meanwhile. */
  #targetsFor(dragged: { ref: RingRef; vertex: number | null } | null): DrawTargets {
    const { part } = this.#jobs.job
    if (dragged && this.#jobs.inGesture) return (this.#held ??= drawTargets(part, dragged))
    this.#held = null
    if (this.#targets?.part !== part) this.#targets = { part, list: drawTargets(part) }
    return dragged ? drawTargets(part, dragged) : this.#targets.list
  }

  #finish(ring: readonly Vertex[]): void {
    const job = this.#jobs.job
    const { chosen } = this
    if (this.as === 'replace' && chosen && this.ring) {
      this.edit('Draw the ring anew', () => ring)
      // The next shape is another one.
      this.#session.standIn = false
      this.as = 'adds'
    } else if (this.as === 'hole') {
      const added = addHoleRing(job, ring)
      if (!added) {
        this.#session.notice = {
          kind: 'fault',
          text: 'A hole must lie in a body. Draw it over one, or draw it as a body of its own.',
        }
        return
      }
      this.#jobs.edit('Draw a hole', () => added.job)
      this.chosen = { body: added.body, ring: added.ring }
    } else {
      const effect = this.as === 'removes' ? 'removes' : 'adds'
      const added = addBody(job, effect, ring)
      this.#jobs.edit(effect === 'adds' ? 'Draw a body' : 'Draw a pocket', () => added.job)
      this.chosen = { body: added.id, ring: 0 }
    }
    this.#drew = true
    this.vertex = null
    this.edge = null
    this.reveal++
    this.take('edit')
  }

  #port(): DrawPort {
    const jobs = this.#jobs
    const place = () => setupPlacement(jobs.job.part, this.#results.setup)
    const toPart = (world: Point) => unplacePoint(place(), world)
    const job = (): Job => jobs.job
    const chosen = () => (this.ring ? this.chosen : null)
    const together = () => this.together
    const vertex = () => this.vertex
    const edge = () => this.edge
    return {
      get job() {
        return job()
      },
      get chosen() {
        return chosen()
      },
      get together() {
        return together()
      },
      toggle: (ref) => this.toggle(ref),
      get vertex() {
        return vertex()
      },
      get edge() {
        return edge()
      },
      step: (pxPerMm) => this.step(pxPerMm),
      choose: (ref, vertex, edge = null) => this.choose(ref, vertex, edge),
      toPart,
      snap: (input: PointerInput, from, dragged = null) =>
        snapDraw(toPart(input.world), this.#targetsFor(dragged), {
          pxPerMm: input.pxPerMm,
          step: this.step(input.pxPerMm),
          touch: input.touch,
          free: input.alt,
          from,
        }),
      preview: (preview) => {
        this.preview = preview
      },
      finish: (ring) => this.#finish(ring),
      begin: (label) => {
        this.#held = null
        jobs.begin(label)
      },
      replace: (next) => jobs.replace(next),
      commit: () => jobs.commit(),
      cancel: () => jobs.cancel(),
      pan: (dx, dy) => this.pan(dx, dy),
      length: (mm) => this.#results.format.length(mm),
    }
  }
}
