/** Takes hold of things in the side view: `world.x` runs along the spindle, `world.y` the way a shelf faces. */
import { isInside, nearestTo } from '../../../src-core/geometry/nearest.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { partStand } from '../../../src-core/holding/stand.ts'
import { isShelf } from '../../../src-core/job/schema.ts'
import { shelfSize } from '../../../src-core/mounting/shelfSize.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { bodiesSeen, sideUp, solidOutline } from '../sideFrame.ts'
import { moveInSide, type SideMove } from '../edits/sideMoves.ts'
import { moveToPlace } from '../edits/shelves.ts'
import type { Drag } from '../grab.ts'
import type { PointerInput, ToolPort } from '../port.ts'
import { REACH, reach } from '../reach.ts'
import { freeStep, roundTo } from '../snap.ts'
import type { Guide, Target } from '../target.ts'
import { TargetTool } from './targetTool.ts'

/**
 * What lies under a point of the side view, else near to it: pieces on the part before it, then the part, then what both
 * stand on.
 */
export const sideHit = (mounted: Mounted, at: Point, pxPerMm: number, touch = false): Target | null =>
  hitWithin(mounted, at, 0) ?? hitWithin(mounted, at, reach(REACH.outline, touch) / pxPerMm)

function hitWithin(mounted: Mounted, at: Point, edge: number): Target | null {
  const up = sideUp(mounted.setup)
  const near = (ring: readonly Point[]) => isInside(ring, at) || nearestTo(ring, at).distance <= edge
  const holds = (shelf: boolean) =>
    mounted.pieces.find((p) => isShelf(p.item) === shelf && p.solids.some((s) => near(solidOutline(s, up))))
  const piece = holds(false)
  if (piece) return { kind: 'piece', id: piece.item.id }
  const adds = bodiesSeen(mounted, up).filter((b) => b.mounted.body.effect === 'adds')
  if (adds.some((b) => b.outlines.some(near))) return { kind: 'part' }
  const shelf = holds(true)
  return shelf ? { kind: 'piece', id: shelf.item.id } : null
}

export class SideTool extends TargetTool {
  readonly name = 'side'

  constructor(port: ToolPort) {
    super(port, {
      find: ({ world, pxPerMm, touch }) => port.mounted && sideHit(port.mounted, world, pxPerMm, touch),
      drag: (target, from) => port.mounted && sideDrag(port.mounted, target, from, (mm) => port.length(mm)),
    })
  }
}

function sideDrag(
  mounted: Mounted,
  target: Target,
  from: PointerInput,
  length: (mm: number) => string,
): Drag<Guide> {
  const { job, setup } = mounted
  const up = sideUp(setup)
  const id = 'id' in target ? target.id : 'the part'
  const size = shelfSize(partStand(mounted))
  return {
    label: `Move ${id}`,
    at: (input) => {
      const step = input.alt ? 0.1 : freeStep(input.pxPerMm, job.displayUnits, 0.25)
      const move: SideMove = {
        out: roundTo(input.world.x - from.world.x, step),
        up: roundTo(input.world.y - from.world.y, step),
      }
      if (target.kind === 'piece' && target.id === size?.of.id) {
        const caught = input.alt ? null : caughtShelf(mounted, move, input)
        if (caught)
          return { job: caught, shown: { at: input.world, text: 'the part lies on it', snapped: true } }
      }
      return {
        job: moveInSide(job, setup.id, target, move, up),
        shown: {
          at: input.world,
          text: `out ${length(move.out)}  up ${length(move.up)}`,
          snapped: false,
        },
      }
    },
  }
}

/** The shelf that carries the part catches where that lies on it. */
function caughtShelf(mounted: Mounted, move: SideMove, input: PointerInput) {
  const { job, setup } = mounted
  const size = shelfSize(partStand(mounted))
  if (!size || size.wanted === null) return null
  const off = size.stands - size.wanted - move.up
  return Math.abs(off) * input.pxPerMm <= reach(REACH.snap, input.touch) ? moveToPlace(job, setup.id) : null
}
