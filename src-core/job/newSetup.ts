import type { Setup } from './schema.ts'

/**
 * A setup to start from, with nothing on the plate yet. 10 % of the rotating weight is Evenswing's own criterion for a
 * new setup: no standard sets one. Friction follows from the surfaces.
 */
export const newSetup = (id: string, centre: Setup['centre']): Setup => ({
  id,
  title: '',
  centre,
  turn: 0,
  packing: 12,
  hardware: [],
  cuts: null,
  speed: null,
  criterion: { kind: 'weightShare', value: 0.1 },
  frictionCoefficient: null,
})
