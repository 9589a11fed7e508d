/**
 * The analysis of a long part, or of one that stands on a shelf, while something is dragged: worked out between the frames
 * of the picture, not in each of them.
 */
import type { Analysis } from '../../src-core/analysis/result.ts'
import { isPrism } from '../../src-core/job/schema.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'

interface Done {
  readonly mounted: Mounted
  readonly analysis: Analysis
}

/** What a browser gives: runs once before its next frame. */
type NextFrame = (run: () => void) => unknown

/** Vertices of a part beyond which an analysis takes a good part of a frame. */
const LONG = 400
/** Times as long as it took that passes before the next. */
const REST = 4

export class PacedAnalysis {
  readonly #analyse: (mounted: Mounted) => Analysis
  readonly #published: () => void
  readonly #nextFrame: NextFrame
  #shown: Done | null = null
  /** Of a frame before: shown in the next, so that one frame has not both to do. */
  #ready: Done | null = null
  #wanted: Mounted | null = null
  #waits = false
  #restsTill = 0

  /** @param published called when what `of` gives has changed by itself. */
  constructor(
    analyse: (mounted: Mounted) => Analysis,
    published: () => void,
    nextFrame: NextFrame = (run) => requestAnimationFrame(run),
  ) {
    this.#analyse = analyse
    this.#published = published
    this.#nextFrame = nextFrame
  }

  /** @param dragged whether it moves on with the next frames: then that of a long part may be of a frame or more before. */
  of(mounted: Mounted, dragged: boolean): Analysis {
    if (this.#shown?.mounted === mounted) return this.#shown.analysis
    if (dragged && this.#shown && isMuchWork(mounted) && areAlike(this.#shown.mounted, mounted)) {
      this.#wanted = mounted
      this.#wait()
      return this.#shown.analysis
    }
    this.#wanted = this.#ready = null
    return (this.#shown = { mounted, analysis: this.#analyse(mounted) }).analysis
  }

  #wait(): void {
    if (this.#waits) return
    this.#waits = true
    this.#nextFrame(() => {
      this.#waits = false
      this.#goOn()
    })
  }

  #goOn(): void {
    if (this.#ready) {
      this.#shown = this.#ready
      this.#ready = null
      this.#published()
    } else if (this.#wanted && performance.now() >= this.#restsTill) {
      const began = performance.now()
      this.#ready = { mounted: this.#wanted, analysis: this.#analyse(this.#wanted) }
      this.#wanted = null
      const ended = performance.now()
      this.#restsTill = ended + REST * (ended - began)
    }
    if (this.#ready || this.#wanted) this.#wait()
  }
}

function isMuchWork({ job, shelves = [] }: Mounted): boolean {
  if (shelves.length > 0) return true
  const count = job.part.bodies.reduce(
    (sum, b) =>
      sum + (isPrism(b) ? [b.outline, ...b.holes].reduce((s, ring) => s + ring.length, 0) : LONG + 1),
    0,
  )
  return count > LONG
}

/** Whether the one's analysis speaks of the same things as the other's would. */
function areAlike(a: Mounted, b: Mounted): boolean {
  const idsOf = ({ job, setup }: Mounted) =>
    [setup.id, ...[...job.part.bodies, ...job.part.bores, ...setup.hardware].map((x) => x.id)].join('\n')
  return idsOf(a) === idsOf(b)
}
