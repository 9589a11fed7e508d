/** Select, slide, turn: the tool that is in hand unless another is taken up. */
import type { Drag } from '../grab.ts'
import { hitTest } from '../hitTest.ts'
import type { PointerInput, ToolPort } from '../port.ts'
import type { Guide, Target } from '../target.ts'
import { movePart, slideNose, slidePiece, turnPart } from './drags.ts'
import { TargetTool } from './targetTool.ts'

export class SelectTool extends TargetTool {
  readonly name = 'select'

  constructor(port: ToolPort) {
    super(port, {
      find: ({ world, pxPerMm, touch }) =>
        port.mounted && hitTest(port.mounted, port.selection, world, pxPerMm, touch),
      drag: (target, from) => dragOf(port, target, from),
    })
  }
}

function dragOf(port: ToolPort, target: Target, from: PointerInput): Drag<Guide> | null {
  const { mounted } = port
  if (!mounted) return null
  const words = { length: (mm: number) => port.length(mm) }
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
