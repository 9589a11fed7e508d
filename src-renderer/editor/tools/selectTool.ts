/** Select, slide, turn: the tool that is in hand unless another is taken up. */
import { Grab, type Drag } from '../grab.ts'
import { hitTest } from '../hitTest.ts'
import type { PointerInput, Tool, ToolPort } from '../port.ts'
import { sameTarget, type Guide, type Target } from '../target.ts'
import { movePart, slideNose, slidePiece, turnPart } from './drags.ts'

export class SelectTool implements Tool {
  readonly name = 'select'
  readonly #port: ToolPort
  readonly #grab: Grab<Target, Guide>
  #over: Target | null = null

  constructor(port: ToolPort) {
    this.#port = port
    this.#grab = new Grab(port, {
      find: (input) => this.#hit(input),
      hover: (target) => this.#hover(target),
      click: (target) => {
        const chosen = selectable(target)
        if (chosen) port.show(chosen)
        else port.select(null)
      },
      drag: (target, from) => {
        const drag = this.#dragOf(target, from)
        if (drag) port.select(selectable(target))
        return drag
      },
      show: (guide) => port.guide(guide),
    })
  }

  down(input: PointerInput): void {
    this.#grab.down(input)
  }
  move(input: PointerInput): void {
    this.#grab.move(input)
  }
  up(input: PointerInput): void {
    this.#grab.up(input)
  }
  cancel(): void {
    this.#grab.cancel()
  }

  get cursor(): string {
    if (this.#grab.moves) return 'grabbing'
    return this.#over && this.#over.kind !== 'slot' && this.#over.kind !== 'hole' ? 'grab' : 'default'
  }

  #dragOf(target: Target, from: PointerInput): Drag<Guide> | null {
    const { mounted } = this.#port
    if (!mounted) return null
    const words = { length: (mm: number) => this.#port.length(mm) }
    switch (target.kind) {
      case 'part':
        return movePart(mounted, from.world, words)
      case 'turn-handle':
        return turnPart(mounted, from.world)
      case 'piece':
        return slidePiece(mounted, target.id, from.world, words)
      case 'nose-handle':
        return slideNose(mounted, target.id, words)
      case 'slot':
      case 'hole':
        return null
    }
  }

  #hit(input: PointerInput): Target | null {
    const { mounted, selection } = this.#port
    return mounted && hitTest(mounted, selection, input.world, input.pxPerMm, input.touch)
  }

  #hover(target: Target | null): void {
    if (sameTarget(this.#over, target)) return
    this.#over = target
    this.#port.hover(target)
  }
}

/** A handle belongs to what it turns or holds. */
function selectable(target: Target | null): Target | null {
  if (target?.kind === 'turn-handle') return { kind: 'part' }
  if (target?.kind === 'nose-handle') return { kind: 'piece', id: target.id }
  return target
}
