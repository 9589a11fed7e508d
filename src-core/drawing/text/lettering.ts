/** Capital heights on a sheet, mm (ISO 3098-1 series). Nothing is lettered smaller than `NOTE`. */
export const LETTERING = {
  /** Notes, field labels, legends. */
  note: 2.5,
  /** What is read at arm's length: dimensions, item numbers, tables. */
  read: 3.5,
  /** Titles and the speed to run. */
  head: 5,
} as const
