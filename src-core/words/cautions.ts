/** What every output says before any power goes on: one wording for sheet, command line and window. */

/** On every sheet. */
export const PRECEDENCE =
  "Estimates for planning. The machine maker's manual, local rules and a competent person come first."

/** What the heavy side does when the spindle is let go: it swings down hard, rolls, may roll, or stays. */
export type Rolling = 'swings' | 'rolls' | 'may roll' | 'stays'

const ROLL_CHECK: Readonly<Record<Rolling, string>> = {
  swings: 'Chock the plate while loading; let the heavy side down by hand, never let it swing.',
  rolls: 'Spindle free, let it roll: heavy side as drawn?',
  'may roll': 'Spindle free: if it rolls, heavy side as drawn?',
  stays: 'Spindle free: it should stay where left. If it rolls, find out why.',
}

/** The checks by hand, in the order they are made. */
export const checksByHand = (rolls: Rolling): readonly string[] => [
  'Every clamp, weight and packing tight; tools and chuck key gone.',
  'Turn the spindle by hand through a full turn, saddle at full depth of bore.',
  'Nothing fouls bed, gap, cross-slide, bar or plate.',
  ROLL_CHECK[rolls],
  'Start at the lowest speed; stand out of the plane of rotation.',
  'Stop and check all bolts after the first cut.',
]

/** The same in one breath, where there is room for a line. */
export const BEFORE_POWER =
  'Before power: turn the spindle by hand through a full turn, start at the lowest speed, stand out of the plane of rotation.'
