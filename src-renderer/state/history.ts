/**
 * Undo by gesture, over whole immutable states. A gesture begins with a label, replaces the state any number of
 * times, and ends as one step (commit) or as if it had never been (cancel: the redo steps stay). Nothing changed
 * means no step. Beginning anew or undoing during a gesture settles it first: a new gesture commits it, an undo
 * cancels it.
 */
export interface Step<T> {
  readonly label: string
  readonly before: T
  readonly after: T
}

export interface History<T> {
  readonly present: T
  readonly past: readonly Step<T>[]
  readonly future: readonly Step<T>[]
  readonly gesture: { readonly label: string; readonly base: T } | null
}

const MOST_STEPS = 300

export const startHistory = <T>(present: T): History<T> => ({ present, past: [], future: [], gesture: null })

/** Every state of it seen another way; what was one object stays one. */
export function mapped<T>(h: History<T>, as: (state: T) => T): History<T> {
  const step = (s: Step<T>): Step<T> => ({ label: s.label, before: as(s.before), after: as(s.after) })
  return {
    present: as(h.present),
    past: h.past.map(step),
    future: h.future.map(step),
    gesture: h.gesture && { label: h.gesture.label, base: as(h.gesture.base) },
  }
}

export function begin<T>(h: History<T>, label: string): History<T> {
  const settled = commit(h)
  return { ...settled, gesture: { label, base: settled.present } }
}

/** Outside a gesture this is refused: every change of the document belongs to a labelled step. */
export function replace<T>(h: History<T>, present: T): History<T> {
  if (!h.gesture) throw new Error('replace outside a gesture')
  return { ...h, present }
}

export function commit<T>(h: History<T>): History<T> {
  if (!h.gesture) return h
  const { label, base } = h.gesture
  if (base === h.present) return { ...h, gesture: null }
  const past = [...h.past, { label, before: base, after: h.present }].slice(-MOST_STEPS)
  return { present: h.present, past, future: [], gesture: null }
}

export function cancel<T>(h: History<T>): History<T> {
  return h.gesture ? { ...h, present: h.gesture.base, gesture: null } : h
}

export function undo<T>(h: History<T>): History<T> {
  if (h.gesture) return cancel(h)
  const step = h.past.at(-1)
  return step ? { ...h, present: step.before, past: h.past.slice(0, -1), future: [step, ...h.future] } : h
}

export function redo<T>(h: History<T>): History<T> {
  if (h.gesture) return h
  const [step, ...future] = h.future
  return step ? { ...h, present: step.after, past: [...h.past, step], future } : h
}
