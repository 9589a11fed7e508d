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
import { Grab, type Drag } from '../grab.ts'
import type { PointerInput } from '../port.ts'
import type { DrawPort, DrawPreview, DrawTool } from './drawPort.ts'
import { REACH, reach } from '../reach.ts'
import type { Typed } from './typedPoint.ts'

type Grip = 'first' | 'second' | 'whole'

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}
/** Degrees, as for the part. */
const TURNS: Readonly<Record<string, number>> = { '[': 15, ']': -15, '{': 1, '}': -1 }
const SCALES: Readonly<Record<string, number>> = { '>': 1.01, '<': 1 / 1.01 }

export class PhotographTool extends Grab<Grip, DrawPreview> implements DrawTool {
  readonly name = 'photograph'
  readonly said = ''
  readonly #port: DrawPort
  #over: Grip | null = null

  constructor(port: DrawPort) {
    super(port, {
      find: (input) => this.#gripAt(input),
      hover: (grip) => (this.#over = grip),
      click: () => undefined,
      drag: (grip, from) => this.#dragOf(grip, from),
      show: (preview) => port.preview(preview),
    })
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
    if (this.moves === 'picture') return 'grabbing'
    return this.#over === null ? 'default' : this.#over === 'whole' ? 'move' : 'pointer'
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

  #gripAt(input: PointerInput): Grip | null {
    const photograph = this.#photograph
    const ties = this.#ties
    if (!photograph || !ties) return null
    const at = this.#port.toPart(input.world)
    const near = (p: Point) =>
      Math.hypot(p.x - at.x, p.y - at.y) * input.pxPerMm <= reach(REACH.snap, input.touch)
    if (near(ties[1])) return 'second'
    if (near(ties[0])) return 'first'
    const made = planMap(ties)
    if (!made.ok) return null
    const pixel = project(made.map.toPixel, at)
    const { width, height } = photograph.picture
    const inside = pixel.x >= 0 && pixel.y >= 0 && pixel.x <= width && pixel.y <= height
    return inside ? 'whole' : null
  }

  #dragOf(grip: Grip, pressed: PointerInput): Drag<DrawPreview> | null {
    const ties = this.#ties
    if (!ties) return null
    const port = this.#port
    const from = port.toPart(pressed.world)
    const [first, second] = ties
    const moved = (to: Point): Ties | null =>
      grip === 'second'
        ? turned(ties, first, second, to)
        : moveTies(ties, grip === 'first' ? less(to, first) : less(to, from))
    return {
      label: grip === 'second' ? 'Turn and scale the photograph' : 'Move the photograph',
      at: (input) => {
        const snapped = port.snap(input, null)
        const at = grip === 'whole' ? port.toPart(input.world) : snapped.point
        const next = moved(at)
        const [a, b] = next ?? ties
        const text =
          grip === 'second'
            ? `1–2: ${port.length(Math.hypot(b.x - a.x, b.y - a.y))}`
            : `1: ${port.length(a.x)}, ${port.length(a.y)}`
        return {
          job: setTies(port.job, next),
          shown: { path: [], closed: false, at, text, snapped: grip !== 'whole' && snapped.text !== '' },
        }
      },
    }
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
