/** What reading a drawing gives: a preview to look at before anything enters the job. */
import type { Point, Region } from '../geometry/types.ts'
import type { MeshFaults } from '../mesh/faults.ts'

/** Length units a file may be drawn in; px is CSS's, 1/96 inch. */
export type ImportUnit = 'mm' | 'cm' | 'dm' | 'm' | 'in' | 'ft' | 'mil' | 'um' | 'px'

export interface ImportOptions {
  /** Overrides what the file states, or answers where it states nothing. */
  readonly units?: ImportUnit | undefined
  /** Ends of edges this near, in mm, are joined; 0.02 mm unless told. */
  readonly joinWithin?: number | undefined
  /** DXF: only these layers; all visible ones unless told. */
  readonly layers?: readonly string[] | undefined
}

/** Something in the file that did not become part of an outline. */
export interface Dropped {
  readonly kind: string
  readonly count: number
  readonly reason: string
  /** Where the first one is: a line of the file or a place in the drawing. */
  readonly place: string
}

/** Something to know about what was read. */
export interface PreviewFault {
  /** Index of the outline it is about, or null. */
  readonly outline: number | null
  /** Place, in the preview's own unit. */
  readonly at: Point | null
  readonly message: string
}

export interface Preview {
  readonly ok: true
  readonly kind: 'dxf' | 'svg' | 'csv' | 'stl'
  /** The unit the file was read in; null: it states none and must be asked, lengths are then the file's plain numbers. */
  readonly units: ImportUnit | null
  /** In mm, or in the file's plain numbers where `units` is null. Outlines with their holes, arcs as bulges. */
  readonly outlines: readonly Region[]
  /** How many of each kind of element were read, under the file's own names for them. */
  readonly counts: Readonly<Record<string, number>>
  readonly dropped: readonly Dropped[]
  /** An outline with a fault can be drawn and repaired, but `toBodies` leaves it out. */
  readonly faults: readonly PreviewFault[]
  /** DXF: layers with the number of elements on them. */
  readonly layers: readonly { readonly name: string; readonly count: number; readonly visible: boolean }[]
  /** STL: the triangles as read, in the file's unit, and what is wrong with their surface. */
  readonly solid: { readonly triangles: Float64Array; readonly faults: MeshFaults | null } | null
}

export interface ImportFault {
  /** A line, byte or element of the file. */
  readonly place: string
  readonly reason: string
}

export type ImportResult = Preview | { readonly ok: false; readonly faults: readonly ImportFault[] }
