/** The order in which the book lists jobs. */

/** Of two ISO times; a collator would take a hundred times as long over thousands of jobs. */
export const newestFirst = (a: string, b: string): number => (a < b ? 1 : a > b ? -1 : 0)

const collator = new Intl.Collator()

export const byName = (a: string, b: string): number => collator.compare(a, b)
