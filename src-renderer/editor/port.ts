/** The narrow port through which a tool works: it sees millimetres and the document, never pixels drawn or Konva. */
import type { Point } from '../../src-core/geometry/types.ts'
import type { Job } from '../../src-core/job/schema.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { Guide, Target } from './target.ts'
import { REACH } from './reach.ts'

export interface PointerInput {
  /** Plate frame, mm. */
  readonly world: Point
  /** View pixels; for panning and for how far a press has moved. */
  readonly screen: Point
  readonly pxPerMm: number
  readonly shift: boolean
  /** Held: no snapping. */
  readonly alt: boolean
  readonly touch: boolean
  /** Milliseconds, for telling a double click. */
  readonly time: number
}

export interface ToolPort {
  readonly job: Job
  readonly setupId: string
  /** Null where the job cannot be mounted. */
  readonly mounted: Mounted | null
  readonly selection: Target | null
  select(target: Target | null): void
  /** Chosen by a plain click: its fields are opened too. */
  show(target: Target): void
  hover(target: Target | null): void
  guide(guide: Guide | null): void
  /** Moves the picture, pixels. */
  pan(dx: number, dy: number): void
  begin(label: string): void
  replace(job: Job): void
  commit(): void
  cancel(): void
  length(mm: number): string
}

/** A small state machine; every state answers every event. */
export interface Tool {
  readonly name: string
  down(input: PointerInput): void
  move(input: PointerInput): void
  up(input: PointerInput): void
  /** Escape, a lost pointer, another tool: back to rest, the document as it was before the gesture. */
  cancel(): void
  readonly cursor: string
}

/** Whether a pressed pointer has gone far enough to drag; `steadiness` times as far for an unsteady hand. */
export const hasDragged = (from: PointerInput, to: PointerInput, steadiness = 1): boolean =>
  Math.hypot(to.screen.x - from.screen.x, to.screen.y - from.screen.y) >= REACH.dragStart * steadiness
