/** What every output says before any power goes on: one wording for sheet, command line and window. */

/** On every sheet. */
export const PRECEDENCE =
  "Estimates for planning. The machine maker's manual, local rules and a competent person come first."

/** The checks by hand, in the order they are made. */
export const CHECKS_BY_HAND: readonly string[] = [
  'Every clamp, weight and packing tight; loose tools and chuck key gone.',
  'Turn the spindle by hand through a full turn, saddle at full depth of bore.',
  'Nothing fouls bed, gap, cross-slide, bar or plate.',
  'Spindle free, let it roll: heavy side as drawn?',
  'Start at the lowest speed; stand out of the plane of rotation.',
  'Stop and check all bolts after the first cut.',
]

/** The same in one breath, where there is room for a line. */
export const BEFORE_POWER =
  'Before power: turn the spindle by hand through a full turn, start at the lowest speed, stand out of the plane of rotation.'
