/** Sets blocks of text and tables into the free regions of one sheet after another. Sheet mm. */
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { Primitive } from '../model/model.ts'

/** A free rectangle; (x, y) is its upper left corner. */
export interface Region {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Laid {
  readonly height: number
  draw(at: Point): Primitive[]
  /** What did not fit. */
  readonly rest: Block | null
}

export interface Block {
  /** Least width it can be set in. */
  readonly width: number
  /** Width at which it breaks nothing; none where it takes any. */
  readonly fullWidth?: number
  /** Begun where there is room for its first lines and gone on with in the next region, rather than set whole on a later sheet. */
  readonly breaks?: boolean
  /** On the sheets that follow, broken rather than set whole on a later one. */
  readonly splits?: boolean
  /** Set in a width, no higher than `room`; null where not even a first piece fits. */
  lay(width: number, room: number): Laid | null
}

const BETWEEN = 3.2

/**
 * Blocks in order, each whole in the first region that holds it; one that no region holds goes to the next sheet, and
 * is broken only if it is higher than a sheet. `next` gives the regions of a following sheet.
 */
export function flow(
  blocks: readonly Block[],
  first: readonly Region[],
  next: () => readonly Region[],
): Primitive[][] {
  const pages: Primitive[][] = []
  let waiting = blocks
  let regions = first
  do {
    const page = fillPage(waiting, regions, pages.length > 0)
    pages.push(page.primitives)
    waiting = page.waiting
    regions = next()
  } while (waiting.length > 0)
  return pages
}

/** `fresh`: a sheet of nothing but blocks, on which the first block waiting must begin whatever its height. */
function fillPage(
  blocks: readonly Block[],
  regions: readonly Region[],
  fresh: boolean,
): { primitives: Primitive[]; waiting: Block[] } {
  const used = regions.map(() => 0)
  const primitives: Primitive[] = []
  const waiting: Block[] = []
  const put = (k: number, laid: Laid) => {
    const region = regions[k]!
    primitives.push(...laid.draw({ x: region.x, y: region.y - used[k]! }))
    used[k] = used[k]! + laid.height + BETWEEN
  }
  const lay = (block: Block, k: number): Laid | null => {
    const { width, height } = regions[k]!
    if (block.width > width + PAPER_TOLERANCE.fit) return null
    return block.lay(width, height - used[k]! + PAPER_TOLERANCE.fit)
  }
  for (const block of blocks) {
    const tries = regions.map((_, k) => lay(block, k))
    const whole = tries.findIndex((laid) => laid !== null && laid.rest === null)
    if (whole >= 0) {
      put(whole, tries[whole]!)
      continue
    }
    if (fresh ? block.splits : block.breaks) {
      const rest = regions.reduce<Block | null>((left, _, k) => {
        const laid = left && lay(left, k)
        if (!left || !laid) return left
        put(k, laid)
        return laid.rest
      }, block)
      if (rest !== block) {
        if (rest) waiting.push(rest)
        continue
      }
    }
    const widest = regions.reduce((best, r, k) => (r.width > (regions[best]?.width ?? 0) ? k : best), 0)
    const begun = primitives.length > 0
    if (!fresh || begun) {
      waiting.push(block)
      continue
    }
    const region = regions[widest]!
    const laid = block.lay(region.width, region.height) ?? block.lay(region.width, Infinity)!
    put(widest, laid)
    if (laid.rest) waiting.push(laid.rest)
  }
  return { primitives, waiting }
}
