/** What is to be done by hand before any power goes on. */
export const CAUTIONS: readonly string[] = [
  "These are estimates for planning, from the figures given. The machine maker's manual, local rules and a competent person come first.",
  'Check every nut and clamp, take the key out, and turn the spindle by hand through a full turn: nothing may touch.',
  'Let the spindle roll to rest, freed, and see whether the heavy side is where it is said to be.',
  'Start at the slowest speed, stand out of the plane of rotation, and stop if anything shakes or moves.',
]
