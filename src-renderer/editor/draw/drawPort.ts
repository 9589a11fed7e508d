/** The port of the drawing tools: part frame, mm. */
import type { Point, Vertex } from '../../../src-core/geometry/types.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import type { PointerInput, Tool } from '../port.ts'
import type { RingRef, Snapped } from './snapping.ts'
import type { Typed } from './typedPoint.ts'

export type DrawToolName = 'edit' | 'outline' | 'rectangle' | 'circle' | 'slot' | 'measure' | 'photograph'

/** What a ring that has been drawn becomes. */
export type DrawnAs = 'adds' | 'removes' | 'hole' | 'replace'

export interface DrawPreview {
  /** The path so far, with bulges; open unless `closed`. */
  readonly path: readonly Vertex[]
  readonly closed: boolean
  /** Where the pointer caught on something, and what; also plain figures. */
  readonly at: Point | null
  readonly text: string
  readonly snapped: boolean
}

export interface DrawPort {
  readonly job: Job
  readonly chosen: RingRef | null
  /** The ring chosen and those chosen with it; empty where none is. */
  readonly together: readonly RingRef[]
  readonly vertex: number | null
  /** The edge from this vertex is chosen; never together with a vertex. */
  readonly edge: number | null
  choose(ref: RingRef | null, vertex: number | null, edge?: number | null): void
  /** Takes a ring to those that are chosen, or from them. */
  toggle(ref: RingRef): void
  /** The grid's step at a zoom, mm. */
  step(pxPerMm: number): number
  /** Plate frame to part frame. */
  toPart(world: Point): Point
  snap(
    input: PointerInput,
    from: Point | null,
    dragged?: { ref: RingRef; vertex: number | null } | null,
  ): Snapped
  preview(preview: DrawPreview | null): void
  /** A ring drawn to its end. */
  finish(ring: readonly Vertex[]): void
  begin(label: string): void
  replace(job: Job): void
  commit(): void
  cancel(): void
  pan(dx: number, dy: number): void
  length(mm: number): string
}

export interface DrawTool extends Tool {
  /** What the next click or typed entry means. */
  readonly prompt: string
  /** Where relative entries count from. */
  readonly last: Point | null
  /** What was found out, such as a measured distance; empty where there is nothing. */
  readonly said: string
  /** Whether the next edge is an arc; left out by tools that draw none. */
  readonly arc?: boolean
  setArc?(arc: boolean): void
  /** Takes a typed entry; a reason where it cannot. */
  typed(entry: Typed): string | null
  /** A key that the tool may use; true where it did. */
  key(name: string): boolean
}
