/** What is said, and where, while something is dragged or pointed at. */
import type { Guide } from '../editor/target.ts'
import type { SceneItem } from './items.ts'
import { lineItem } from './lineItem.ts'

/** @param lift px that the words stand over the place. */
export function describeGuide(guide: Guide | null, lift: number): SceneItem[] {
  if (!guide) return []
  const words: SceneItem = {
    id: 'guide-text',
    layer: 'overlay',
    role: 'guide-text',
    kind: 'text',
    at: guide.at,
    offset: { x: 0, y: -lift },
    align: 'centre',
    text: guide.text,
    emphasis: { selected: guide.snapped },
  }
  if (!guide.from) return [words]
  return [lineItem('guide-line', 'guide', guide.from, guide.at), words]
}
