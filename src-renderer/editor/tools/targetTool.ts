/** What the tools for plan, side and shelf have in common: a click chooses, a drag chooses what it moves. */
import { Grab, type Hold } from '../grab.ts'
import type { Tool, ToolPort } from '../port.ts'
import { sameTarget, type Guide, type Target } from '../target.ts'

export abstract class TargetTool extends Grab<Target, Guide> implements Tool {
  abstract readonly name: string
  #over: Target | null = null

  constructor(port: ToolPort, { find, drag }: Pick<Hold<Target, Guide>, 'find' | 'drag'>) {
    super(port, {
      find,
      hover: (target) => {
        if (sameTarget(this.#over, target)) return
        this.#over = target
        port.hover(target)
      },
      click: (target) => (target ? port.show(selectable(target)) : port.select(null)),
      drag: (target, from) => {
        const begun = drag(target, from)
        if (begun) port.select(selectable(target))
        return begun
      },
      show: (guide) => port.guide(guide),
    })
  }

  get cursor(): string {
    if (this.moves) return 'grabbing'
    return this.#over && this.#over.kind !== 'slot' && this.#over.kind !== 'hole' ? 'grab' : 'default'
  }
}

/** A handle belongs to what it turns or holds. */
function selectable(target: Target): Target {
  if (target.kind === 'turn-handle') return { kind: 'part' }
  if (target.kind === 'nose-handle') return { kind: 'piece', id: target.id }
  return target
}
