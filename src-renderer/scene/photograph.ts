/** The photograph under the part, and the two points that it is taken hold of by. */
import { compose, rotation, type Affine } from '../../src-core/geometry/affine.ts'
import type { Photograph } from '../../src-core/job/schema.ts'
import { placePoint } from '../../src-core/mounting/place.ts'
import type { Placement } from '../../src-core/mounting/types.ts'
import type { PlacedImage } from '../state/shownPhotograph.svelte.ts'
import type { SceneItem } from './items.ts'

/** Lowest in the work's layer; nothing while its image is not ready. */
export function describePhotograph(
  photograph: Photograph | null | undefined,
  placed: PlacedImage | null,
  placement: Placement,
): SceneItem[] {
  if (!photograph || !placed || photograph.opacity === 0) return []
  const mount: Affine = { ...rotation(placement.turn), e: placement.x, f: placement.y }
  return [
    {
      id: 'photograph',
      layer: 'work',
      role: 'photograph',
      kind: 'picture',
      image: placed.image,
      map: compose(mount, placed.toPlan),
      opacity: photograph.opacity,
    },
  ]
}

/** Grips of a photograph that may be moved. */
export function photographGrips(
  photograph: Photograph | null | undefined,
  placement: Placement,
): SceneItem[] {
  if (!photograph || photograph.locked) return []
  return photograph.ties.slice(0, 2).flatMap((tie, i): SceneItem[] => {
    const at = placePoint(placement, tie)
    return [
      {
        id: `photograph-grip:${i}`,
        layer: 'overlay',
        role: 'draw-vertex-chosen',
        kind: 'points',
        points: [at],
        sign: i === 0 ? 'square' : 'diamond',
      },
      {
        id: `photograph-grip-label:${i}`,
        layer: 'overlay',
        role: 'tag',
        kind: 'text',
        at,
        offset: { x: 14, y: -14 },
        align: 'centre',
        text: String(i + 1),
      },
    ]
  })
}
