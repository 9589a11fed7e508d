/**
 * Moves the photograph under the plan: its first point or any other place drags all of it, its second point turns and
 * scales it about the first. A locked one stays.
 */
import { angleOf, toDegrees } from '../../../src-core/geometry/angles.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Photograph } from '../../../src-core/job/schema.ts'
import { project } from '../../../src-core/picture/matrix.ts'
import { moveTies, turnTies } from '../../../src-core/picture/moving.ts'
import { planMap, type Ties } from '../../../src-core/picture/planMap.ts'
import { setTies } from '../edits/photograph.ts'
import { hasDragged, type PointerInput } from '../port.ts'
import { SNAP_PX } from '../snap.ts'
import type { DrawPort, DrawTool } from './drawPort.ts'
import type { Typed } from './typedPoint.ts'

type Grip = 'first' | 'second' | 'whole' | 'beside'
type State =
  | { readonly name: 'idle' }
  | { readonly name: 'pressed'; readonly grip: Grip; readonly input: PointerInput }
  | { readonly name: 'dragging'; readonly grip: Grip; readonly from: Point; readonly ties: Ties }
  | { readonly name: 'panning'; readonly last: PointerInput }

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}
/** Degrees, as for the part. */
const TURNS: Readonly<Record<string, number>> = { '[': 15, ']': -15, '{': 1, '}': -1 }
const SCALES: Readonly<Record<string, number>> = { '>': 1.01, '<': 1 / 1.01 }

export class PhotographTool implements DrawTool {
  readonly name = 'photograph'
  readonly said = ''
  readonly #port: DrawPort
  #state: State = { name: 'idle' }
  #over: Grip = 'beside'

  constructor(port: DrawPort) {
    this.#port = port
  }

  get #photograph(): Photograph | null {
    return this.#port.job.part.photograph ?? null
  }
  /** The ties where they may be moved. */
  get #ties(): Ties | null {
    const p = this.#photograph
    return p && !p.locked ? p.ties : null
  }

  get prompt(): string {
    if (!this.#photograph) return 'There is no photograph yet'
    if (!this.#ties) return 'The photograph is locked; unlock it beside the plan to move it'
    return 'Drag it; drag point 2 to turn and scale it about point 1, or type where point 1 goes'
  }
  get last(): Point | null {
    const first = this.#photograph?.ties[0]
    return first ? { x: first.x, y: first.y } : null
  }
  get cursor(): string {
    if (this.#state.name === 'panning') return 'grabbing'
    return this.#over === 'beside' ? 'default' : this.#over === 'whole' ? 'move' : 'pointer'
  }

  down(input: PointerInput): void {
    this.cancel()
    this.#state = { name: 'pressed', grip: this.#gripAt(input), input }
  }
  move(input: PointerInput): void {
    const state = this.#state
    switch (state.name) {
      case 'idle':
        this.#over = this.#gripAt(input)
        return
      case 'pressed':
        if (hasDragged(state.input, input)) this.#start(state.grip, state.input, input)
        return
      case 'panning':
        this.#port.pan(input.screen.x - state.last.screen.x, input.screen.y - state.last.screen.y)
        this.#state = { name: 'panning', last: input }
        return
      case 'dragging':
        return this.#drag(state, input)
    }
  }
  up(): void {
    if (this.#state.name === 'dragging') this.#port.commit()
    this.#state = { name: 'idle' }
    this.#port.preview(null)
  }
  cancel(): void {
    if (this.#state.name === 'dragging') this.#port.cancel()
    this.#state = { name: 'idle' }
    this.#port.preview(null)
  }

  key(name: string): boolean {
    const plain = name.replace(/^Shift\+/, '')
    const ties = this.#ties
    const step = ARROWS[plain]
    const turn = TURNS[name]
    const scale = SCALES[name]
    if (!step && turn === undefined && scale === undefined) return false
    if (!ties) return true
    const about = { x: ties[0].x, y: ties[0].y }
    if (step) {
      const by = plain === name ? 1 : 0.1
      this.#edit('Move the photograph', moveTies(ties, { x: by * step.x, y: by * step.y }))
    } else if (turn !== undefined) this.#edit('Turn the photograph', turnTies(ties, about, turn))
    else this.#edit('Scale the photograph', turnTies(ties, about, 0, scale))
    return true
  }

  typed(entry: Typed): string | null {
    if (entry.kind === 'refused') return entry.reason
    const ties = this.#ties
    if (!ties) return `${this.prompt}.`
    if (entry.kind !== 'point')
      return 'A point is wanted here: where point 1 goes, or a step by which it moves.'
    const moved = moveTies(ties, { x: entry.point.x - ties[0].x, y: entry.point.y - ties[0].y })
    if (!moved) return 'That is further away than a job may hold.'
    this.#edit('Move the photograph', moved)
    return null
  }

  #edit(label: string, ties: Ties | null): void {
    this.#port.begin(label)
    this.#port.replace(setTies(this.#port.job, ties))
    this.#port.commit()
  }

  #gripAt(input: PointerInput): Grip {
    const photograph = this.#photograph
    const ties = this.#ties
    if (!photograph || !ties) return 'beside'
    const at = this.#port.toPart(input.world)
    const near = (p: Point) =>
      Math.hypot(p.x - at.x, p.y - at.y) * input.pxPerMm <= SNAP_PX * (input.touch ? 1.8 : 1)
    if (near(ties[1])) return 'second'
    if (near(ties[0])) return 'first'
    const made = planMap(ties)
    if (!made.ok) return 'beside'
    const pixel = project(made.map.toPixel, at)
    const { width, height } = photograph.picture
    const inside = pixel.x >= 0 && pixel.y >= 0 && pixel.x <= width && pixel.y <= height
    return inside ? 'whole' : 'beside'
  }

  #start(grip: Grip, pressed: PointerInput, input: PointerInput): void {
    const ties = this.#ties
    if (grip === 'beside' || !ties) {
      this.#state = { name: 'panning', last: input }
      return
    }
    this.#port.begin(grip === 'second' ? 'Turn and scale the photograph' : 'Move the photograph')
    const state = { name: 'dragging', grip, from: this.#port.toPart(pressed.world), ties } as const
    this.#state = state
    this.#drag(state, input)
  }

  #drag({ grip, from, ties }: Extract<State, { name: 'dragging' }>, input: PointerInput): void {
    const [first, second] = ties
    const snapped = this.#port.snap(input, null)
    const raw = this.#port.toPart(input.world)
    const to = grip === 'whole' ? raw : snapped.point
    const moved =
      grip === 'second'
        ? turned(ties, first, second, to)
        : moveTies(ties, grip === 'first' ? less(to, first) : less(to, from))
    this.#port.replace(setTies(this.#port.job, moved))
    const [a, b] = moved ?? ties
    const length = (mm: number) => this.#port.length(mm)
    this.#port.preview({
      path: [],
      closed: false,
      at: to,
      text:
        grip === 'second'
          ? `1–2: ${length(Math.hypot(b.x - a.x, b.y - a.y))}`
          : `1: ${length(a.x)}, ${length(a.y)}`,
      snapped: grip !== 'whole' && snapped.text !== '',
    })
  }
}

const less = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y })

/** Turned and scaled about `centre` so that `from` comes to `to`; null where that would leave nothing. */
function turned(ties: Ties, centre: Point, from: Point, to: Point): Ties | null {
  const a = less(from, centre)
  const b = less(to, centre)
  const factor = Math.hypot(b.x, b.y) / Math.hypot(a.x, a.y)
  if (!(factor > 1e-3)) return null
  const degrees = toDegrees(angleOf(b) - angleOf(a))
  return turnTies(ties, centre, degrees, factor)
}
