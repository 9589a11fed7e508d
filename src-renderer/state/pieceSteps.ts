/** In which step of the work a piece is listed, with its fields. */
import type { HardwareKind } from '../../src-core/job/schema.ts'
import type { StepName } from './session.svelte.ts'

export const PIECE_STEPS: Readonly<Record<HardwareKind, StepName>> = {
  clamp: 'clamps',
  press: 'clamps',
  bolt: 'clamps',
  stop: 'clamps',
  dowel: 'clamps',
  bracket: 'clamps',
  other: 'clamps',
  weight: 'counterweights',
  counterweight: 'counterweights',
  twin: 'counterweights',
  packing: 'mounting',
  fixture: 'mounting',
  anglePlate: 'mounting',
  vee: 'mounting',
}
