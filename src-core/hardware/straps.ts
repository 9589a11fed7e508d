/** Strap clamps: their proportions and what their steel can carry. mm, N, N/mm². */
import { discArea } from '../geometry/discArea.ts'
import { nutSize, nutVolume } from './nuts.ts'
import { rodVolume, type Thread } from './threads.ts'

/** How a strap stands whose bolt is in the middle of it: toe and heel press this share of its length from the bolt. */
const CENTRED_REACH = 0.42
/** mm from the bolt to the toe, and to the heel, of a strap with its bolt in the middle. */
export const centredReach = (length: number): number => length * CENTRED_REACH

/** mm that a stud goes on below a strap's underside. */
const STUD_BELOW = 40

/**
 * mm³ of a strap with its stud, nut and washer. The strap's slot is a third of its length and a millimetre wider than
 * the thread; `height` is from the underside to the top of the stud. Without a thread: the strap alone.
 */
export function strapClampVolume(
  { length, width, thickness, height }: { length: number; width: number; thickness: number; height: number },
  thread: Thread | null,
): number {
  const d = thread?.diameter ?? 0
  const strap = (length * width - (length / 3) * (d + 1)) * thickness
  const nut = thread && nutSize(thread)
  return (
    strap +
    (thread ? rodVolume(thread, height + STUD_BELOW) : 0) +
    (thread && nut ? nutVolume(thread, nut) + plainWasherVolume(d) : 0)
  )
}

/** mm³ of a plain washer: twice the thread across and a fifth of it thick, about as ISO 7089 has them. */
const plainWasherVolume = (d: number): number => (discArea(2 * d) - discArea(1.08 * d)) * (d / 5)
