/** Sets blocks of text and tables into the free regions of one sheet after another. Sheet mm. */
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { Primitive } from '../model/model.ts'

/** Least width of anything that stands on a sheet, mm. */
export const NARROWEST = 60

/** A free rectangle; (x, y) is its upper left corner. */
export interface Region {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Laid {
  readonly height: number
  /** Of what is drawn; all there is where not given. */
  readonly width?: number
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

/** Between blocks one under the other, and side by side. */
const BETWEEN = 3.2
const BESIDE = 6

/** A block where it stands, its upper left corner at `at`. */
interface Placed {
  readonly laid: Laid
  readonly at: Point
}

/** Blocks on one sheet after another; nothing of them is drawn yet. */
export type Pages = readonly (readonly Placed[])[]

/**
 * Blocks in order, each whole in the first region that holds it; one that no region holds goes to the next sheet, and
 * is broken only if it is higher than a sheet. What is narrow leaves room beside it for what is narrow and no higher.
 * `next` gives the regions of a following sheet.
 */
export function flow(
  blocks: readonly Block[],
  first: readonly Region[],
  next: () => readonly Region[],
): Pages {
  const pages: (readonly Placed[])[] = []
  let waiting = blocks
  let regions = first
  do {
    const page = fillPage(waiting, regions, pages.length > 0)
    pages.push(page.placed)
    waiting = page.waiting
    regions = next()
  } while (waiting.length > 0)
  return pages
}

export const drawPages = (pages: Pages): Primitive[][] =>
  pages.map((placed) => placed.flatMap(({ laid, at }) => laid.draw(at)))

/** What is left of a region. */
interface Free extends Region {
  /** Beside a block: nothing is broken there, and no table squeezed into it. */
  readonly beside: boolean
}

/** Ground of one sheet, taken up from the top. */
class Page {
  readonly placed: Placed[] = []
  /** Width into which what is wider still is squeezed. */
  readonly #widest: number
  #free: Free[]

  constructor(regions: readonly Region[], fresh: boolean) {
    this.#widest = fresh ? Math.max(...regions.map((r) => r.width)) : Infinity
    this.#free = regions.map((r) => ({ ...r, beside: false }))
  }

  /** Whole, where it can stand so; whether it could. */
  putWhole(block: Block): boolean {
    return this.#free.some((region) => {
      const laid = this.#lay(block, region)
      if (!laid || laid.rest) return false
      this.#put(region, laid)
      return true
    })
  }

  /** As much of it as goes into what is left; what does not, which may be all of it. */
  putBroken(block: Block): Block | null {
    let rest: Block | null = block
    for (const region of [...this.#free]) {
      const laid: Laid | null = rest && !region.beside ? this.#lay(rest, region) : null
      if (!laid) continue
      this.#put(region, laid)
      rest = laid.rest
    }
    return rest
  }

  /** In the widest region, though it be too high for it. */
  force(block: Block): Block | null {
    const region = this.#free.reduce((best, r) => (r.width > best.width ? r : best))
    const laid = block.lay(region.width, region.height) ?? block.lay(region.width, Infinity)!
    this.#put(region, laid)
    return laid.rest
  }

  #lay(block: Block, { width, height, beside }: Free): Laid | null {
    const least = beside ? (block.fullWidth ?? block.width) : Math.min(block.width, this.#widest)
    if (least > width + PAPER_TOLERANCE.fit) return null
    return block.lay(width, height + PAPER_TOLERANCE.fit)
  }

  #put(region: Free, laid: Laid): void {
    const { x, y, width, height } = region
    this.placed.push({ laid, at: { x, y } })
    const used = laid.height + BETWEEN
    const taken = (laid.width ?? width) + BESIDE
    const left: Free[] = [{ ...region, y: y - used, height: height - used }]
    if (width - taken >= NARROWEST && !region.beside)
      left.unshift({ x: x + taken, y, width: width - taken, height: laid.height, beside: true })
    this.#free.splice(this.#free.indexOf(region), 1, ...left)
  }
}

/** `fresh`: a sheet of nothing but blocks, on which the first block waiting must begin whatever its height. */
function fillPage(
  blocks: readonly Block[],
  regions: readonly Region[],
  fresh: boolean,
): { placed: readonly Placed[]; waiting: Block[] } {
  const page = new Page(regions, fresh)
  const waiting: Block[] = []
  for (const block of blocks) {
    if (page.putWhole(block)) continue
    let rest: Block | null = block
    if (fresh ? block.splits : block.breaks) rest = page.putBroken(block)
    if (rest === block && fresh && page.placed.length === 0) rest = page.force(block)
    if (rest) waiting.push(rest)
  }
  return { placed: page.placed, waiting }
}
