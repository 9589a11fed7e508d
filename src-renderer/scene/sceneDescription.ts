/** The whole picture at once, for tests and for pictures that do not change while one looks at them. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { SceneItem } from './items.ts'
import { describeCrossSlide, describeMachine } from './machine.ts'
import { describeOverlay, type OverlayState } from './overlay.ts'
import { describePlate } from './plate.ts'
import { describeWork, worstByItem, type Pointed } from './work.ts'

/** Keyed display list, bottom to top; every id occurs once. */
export function sceneDescription(
  mounted: Mounted,
  analysis: Analysis | null,
  session: Pointed & Omit<OverlayState, 'selection'>,
): SceneItem[] {
  const { lathe, plate } = mounted.job
  return [
    ...describeMachine(lathe, plate.diameter, (mm) => session.length(mm)),
    ...describePlate(plate, session),
    describeCrossSlide(lathe),
    ...describeWork(mounted, session, worstByItem(analysis)),
    ...describeOverlay(mounted, analysis, session),
  ]
}
