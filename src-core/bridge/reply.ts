/** How the host answers, and how it names a file. Types only. */

export type Reply<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: HostFault }

export interface HostFault {
  /** Stable, e.g. 'file.changed', 'file.gone', 'file.denied', 'request.refused', 'request.failed'. */
  readonly code: string
  /** One sentence that says what happened and what to do next. */
  readonly message: string
}

/** A file that the user chose in this session; `id` is opaque and only the host can make one. */
export interface FileRef {
  readonly id: string
  readonly name: string
  /** Folder, for showing. */
  readonly folder: string
}
