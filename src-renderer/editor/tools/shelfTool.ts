/** Takes hold of what stands on a shelf, looked at square: `world.x` runs along it, `world.y` out from the plate. */
import { polar, turnPoint } from '../../../src-core/geometry/angles.ts'
import { anchorsBy } from '../../../src-core/mounting/plateFace.ts'
import { holesInFrame, slotsOf } from '../../../src-core/mounting/shelf.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { moveOnShelf } from '../edits/onShelf.ts'
import type { Drag } from '../grab.ts'
import { hitTest } from '../hitTest.ts'
import type { PointerInput, ToolPort } from '../port.ts'
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
        return shelfDrag(port.job, port.setupId, mounted, target.id, from, (mm) => port.length(mm))
      },
    })
  }
}

function shelfDrag(
  job: Job,
  setupId: string,
  view: Mounted,
  id: string,
  from: PointerInput,
  length: (mm: number) => string,
): Drag<Guide> | null {
  const piece = view.pieces.find((p) => p.item.id === id)
  if (!piece) return null
  return {
    label: `Move ${id}`,
    at: (input) => {
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const raw = {
        x: piece.at.x + input.world.x - from.world.x,
        y: piece.at.y + input.world.y - from.world.y,
      }
      const free = { x: roundTo(raw.x, step), y: roundTo(raw.y, step) }
      const caught = input.alt ? null : middleNear(view, raw, reach(REACH.snap, input.touch) / input.pxPerMm)
      const at = caught ? { x: roundTo(caught.at.x, 0.01), y: roundTo(caught.at.y, step) } : free
      return {
        job: moveOnShelf(job, setupId, view, id, at),
        shown: {
          at,
          text: `${caught ? `${caught.id}  ` : ''}along ${length(at.x)}  out ${length(at.y)}`,
          snapped: caught !== null,
        },
      }
    },
  }
}

/** The middle of the shelf's slot or hole that is near enough. */
function middleNear({ job, shelf }: Mounted, at: { x: number; y: number }, within: number) {
  const [near] = anchorsBy(job.plate, at)
  if (!near || !shelf || near.anchor.off > within) return null
  const { item } = shelf
  const hole = holesInFrame(item).find((h) => h.id === near.anchor.id)
  if (hole) return { id: hole.id, at: { x: hole.x, y: hole.y } }
  const slot = slotsOf(item).find((s) => s.id === near.anchor.id)
  if (!slot) return null
  const half = Math.max(0, slot.length - slot.width) / 2
  const along = turnPoint({ x: at.x - slot.x, y: at.y - slot.y }, -slot.angle).x
  const by = polar(Math.min(half, Math.max(-half, along)), slot.angle)
  return { id: slot.id, at: { x: slot.x + by.x, y: slot.y + by.y } }
}
