/** What keys do with what is selected: move it, turn it, take it off, go on to the next. */
import { wholeTurn } from '../../src-core/geometry/angles.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { standOf } from '../../src-core/holding/stand.ts'
import { movePiece, removePiece, turnPiece } from '../editor/edits/hardware.ts'
import { centreAfterMove, setCentre, setTurn } from '../editor/edits/mounting.ts'
import { centrePoint } from '../../src-core/mounting/cutAway.ts'
import { isStationed } from '../../src-core/job/schema.ts'
import { alongInPlan, moveOnShelf } from '../editor/edits/onShelf.ts'
import { moveInSide } from '../editor/edits/sideMoves.ts'
import { sideUp } from '../editor/sideFrame.ts'
import { roundTo } from '../editor/snap.ts'
import { shelfView, shownView } from './shownView.ts'
import type { App } from './app.svelte.ts'

/** In the side view x runs out from the plate and y the way a shelf faces; square to a shelf y runs out from the plate. */
function nudgeSeen(app: App, x: number, y: number): boolean {
  const { jobs, session, results } = app
  const target = session.selection
  const view = shownView(app)
  if (!target || view === 'plan') return false
  const { setup } = results
  const id = 'id' in target ? target.id : 'the part'
  if (view === 'side')
    jobs.edit(`Move ${id}`, (job) => moveInSide(job, setup.id, target, { out: x, up: y }, sideUp(setup)))
  const seen = shelfView(results.mounted)
  const at = target.kind === 'piece' ? seen?.pieces.find((p) => p.item.id === target.id)?.at : undefined
  if (view === 'shelf' && seen && at)
    jobs.edit(`Move ${id}`, (job) => moveOnShelf(job, setup.id, seen, id, { x: at.x + x, y: at.y + y }))
  return true
}

/** By a step in mm of the picture that is shown, or along the slot or shelf that it stands in. */
export function nudgeSelection(app: App, x: number, y: number): void {
  if (nudgeSeen(app, x, y)) return
  const { jobs, session, results } = app
  const { setup } = results
  const target = session.selection
  if (target?.kind === 'part') {
    const centre = centreAfterMove(centrePoint(jobs.job.part, setup), setup.turn, { x, y })
    jobs.edit('Move the part', (job) =>
      setCentre(job, setup.id, { x: roundTo(centre.x, 1e-4), y: roundTo(centre.y, 1e-4) }),
    )
  }
  if (target?.kind !== 'piece' || nudgeAlong(app, target.id, { x, y })) return
  const piece = setup.hardware.find((h) => h.id === target.id)
  if (!piece || !isStationed(piece) || 'on' in piece.at || 'hole' in piece.at) return
  const { at } = piece
  const moved =
    'slot' in at
      ? { slot: at.slot, radius: slotRadius(jobs.job, at, x + y) }
      : { x: roundTo(at.x + x, 0.001), y: roundTo(at.y + y, 0.001) }
  jobs.edit(`Move ${piece.name ?? piece.kind} ${piece.id}`, (job) =>
    movePiece(job, setup.id, piece.id, moved),
  )
}

/** In plan what stands on a shelf goes a whole step along it, by the keys that do not point across it. */
function nudgeAlong({ jobs, results }: App, id: string, by: Point): boolean {
  const piece = results.mounted?.pieces.find((p) => p.item.id === id)
  if (!results.mounted || !piece?.shelf) return false
  const { stand, seen } = standOf(results.mounted, piece)
  const step = Math.hypot(by.x, by.y)
  const along = alongInPlan(stand, by)
  if (Math.abs(along) > step / 2)
    jobs.edit(`Move ${id}`, (job) =>
      moveOnShelf(job, results.setup.id, stand, id, { x: seen.at.x + Math.sign(along) * step, y: seen.at.y }),
    )
  return true
}

function slotRadius(job: App['jobs']['job'], at: { slot: string; radius: number }, by: number): number {
  const slot = job.plate.slots.find((s) => s.id === at.slot)
  const radius = roundTo(at.radius + by, 0.001)
  return slot ? Math.min(slot.to, Math.max(slot.from, radius)) : radius
}

/** @param by degrees, counter-clockwise. */
export function turnSelection({ jobs, session, results }: App, by: number): void {
  const target = session.selection
  if (target?.kind === 'piece')
    jobs.edit(`Turn ${target.id}`, (job) => turnPiece(job, results.setup.id, target.id, by))
  if (session.selection?.kind !== 'part') return
  const { setup } = results
  const turn = roundTo(wholeTurn(setup.turn + by), 0.001)
  jobs.edit('Turn the part', (job) => setTurn(job, setup.id, turn))
}

export function removeSelection({ jobs, session, results }: App): void {
  const target = session.selection
  if (target?.kind !== 'piece') return
  session.selection = null
  jobs.edit(`Take off ${target.id}`, (job) => removePiece(job, results.setup.id, target.id))
}

/** Round through the part and all pieces. */
export function selectNext({ session, results }: App, by: number): void {
  const all = [
    { kind: 'part' } as const,
    ...results.setup.hardware.map((h) => ({ kind: 'piece', id: h.id }) as const),
  ]
  const now = all.findIndex(
    (t) =>
      t.kind === session.selection?.kind &&
      (t.kind === 'part' || ('id' in session.selection && t.id === session.selection.id)),
  )
  session.selection = all[(now + by + all.length) % all.length] ?? null
}
