const asked = process.env['EVENSWING_SEED']

/** What the random draws of a run begin from: always the same, unless EVENSWING_SEED is a number or `any`. */
export const SEED = asked === 'any' ? Date.now() % 1e6 : Number(asked ?? 20261126)
