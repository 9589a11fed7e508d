/** Takes hold of what stands on a shelf, looked at square: `world.x` runs along it, `world.y` out from the plate. */
import { polar, turnPoint } from '../../../src-core/geometry/angles.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { standOf } from '../../../src-core/holding/stand.ts'
import { anchorsBy } from '../../../src-core/mounting/plateFace.ts'
import { holesInFrame, placeInPlate, slotsOf } from '../../../src-core/mounting/shelf.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import type { Mounted, MountedPiece } from '../../../src-core/mounting/types.ts'
import { alongInPlan, moveOnShelf } from '../edits/onShelf.ts'
import type { Drag } from '../grab.ts'
import { hitTest } from '../hitTest.ts'
import type { ToolPort } from '../port.ts'
import { REACH, reach } from '../reach.ts'
import { freeStep, roundTo } from '../snap.ts'
import type { Guide } from '../target.ts'
import { TargetTool } from './targetTool.ts'

export class ShelfTool extends TargetTool {
  readonly name = 'shelf'

  /** @param view the setup as it looks from the shelf. */
  constructor(port: ToolPort, view: () => Mounted | null) {
    super(port, {
      find: ({ world, pxPerMm, touch }) => {
        const mounted = view()
        const hit = mounted && hitTest(mounted, null, world, pxPerMm, touch)
        return hit?.kind === 'piece' || hit?.kind === 'part' ? hit : null
      },
      drag: (target, from) => {
        const mounted = view()
        if (!mounted || target.kind !== 'piece') return null
        const words = { length: (mm: number) => port.length(mm) }
        return shelfDrag(port.job, port.setupId, mounted, target.id, from.world, words)
      },
    })
  }
}

type Words = { length(mm: number): string }

/** @param from where it was taken hold of. @param keptOut how far out it stands is not seen, and stays. */
function shelfDrag(
  job: Job,
  setupId: string,
  view: Mounted,
  id: string,
  from: Point,
  words: Words,
  keptOut = false,
): Drag<Guide> | null {
  const piece = view.pieces.find((p) => p.item.id === id)
  if (!piece) return null
  return {
    label: `Move ${id}`,
    at: (input) => {
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const raw = { x: piece.at.x + input.world.x - from.x, y: piece.at.y + input.world.y - from.y }
      const free = { x: roundTo(raw.x, step), y: keptOut ? raw.y : roundTo(raw.y, step) }
      const within = reach(REACH.snap, input.touch) / input.pxPerMm
      const caught = input.alt
        ? null
        : (piece.item.kind === 'vee' ? roundNear : middleNear)(view, raw, within)
      const on = caught && !(keptOut && Math.abs(caught.at.y - raw.y) > SAME) ? caught : null
      const at = on
        ? { x: roundTo(on.at.x, 0.01), y: keptOut || on.hole ? on.at.y : roundTo(on.at.y, step) }
        : free
      const out = keptOut ? '' : `  out ${words.length(at.y)}`
      return {
        job: moveOnShelf(job, setupId, view, id, on?.hole ? { ...at, hole: on.hole } : at),
        shown: {
          at,
          text: `${on ? `${on.id}  ` : ''}along ${words.length(at.x)}${out}`,
          snapped: on !== null,
        },
      }
    },
  }
}

/** mm by which a middle may lie nearer to the plate or further, where a piece keeps how far out it stands. */
const SAME = 0.01

/** In plan what stands on a shelf is moved along it; null for what stands on no shelf. */
export function slideAlong(
  mounted: Mounted,
  piece: MountedPiece,
  from: Point,
  words: Words,
): Drag<Guide> | null {
  const { job, setup } = mounted
  const { stand } = standOf(mounted, piece)
  if (!stand.shelf) return null
  const onShelf = (p: Point): Point => ({ x: alongInPlan(stand, p), y: 0 })
  const drag = shelfDrag(job, setup.id, stand, piece.item.id, onShelf(from), words, true)
  return (
    drag && {
      label: drag.label,
      at: (input) => {
        const { job: moved, shown } = drag.at({ ...input, world: onShelf(input.world) })
        return { job: moved, shown: { ...shown, at: placeInPlate(stand, shown.at) } }
      },
    }
  )
}

interface Caught {
  readonly id: string
  readonly hole: string | null
  readonly at: Point
}

/** A loose block is caught where the part's round lies in it; it goes into no slot. */
function roundNear({ shelf, pieces }: Mounted, at: Point, within: number): Caught | null {
  const round = shelf?.round
  const block = pieces.find((p) => p.item.id === shelf?.block?.id)
  const beside = round?.lies ? 0 : round?.why === 'off' ? round.beside : null
  if (!block || beside === null) return null
  const x = block.at.x + beside
  return Math.abs(x - at.x) > within ? null : { id: 'under the round', hole: null, at: { x, y: at.y } }
}

/** The middle of the shelf's slot or hole that is near enough. */
function middleNear({ job, shelf }: Mounted, at: Point, within: number): Caught | null {
  const [near] = anchorsBy(job.plate, at)
  if (!near || !shelf || near.anchor.off > within) return null
  const { item } = shelf
  const hole = holesInFrame(item).find((h) => h.id === near.anchor.id)
  if (hole) return { id: hole.id, hole: hole.id, at: { x: hole.x, y: hole.y } }
  const slot = slotsOf(item).find((s) => s.id === near.anchor.id)
  if (!slot) return null
  const half = Math.max(0, slot.length - slot.width) / 2
  const along = turnPoint({ x: at.x - slot.x, y: at.y - slot.y }, -slot.angle).x
  const by = polar(Math.min(half, Math.max(-half, along)), slot.angle)
  return { id: slot.id, hole: null, at: { x: slot.x + by.x, y: slot.y + by.y } }
}
