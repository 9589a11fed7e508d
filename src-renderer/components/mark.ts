/** The mark of Evenswing in a square of 24: a faceplate, the heavy side, and the weight across from it. */
interface Disc {
  readonly x: number
  readonly y: number
  readonly r: number
}

export const MARK = {
  size: 24,
  rim: { x: 12, y: 12, r: 10, width: 1.5 },
  slots: { path: 'M12 3.6V6.2M12 17.8V20.4M4.7 7.8l2.2 1.3M17.1 14.9l2.2 1.3', width: 0.7, opacity: 0.55 },
  arm: { path: 'M12 12 18.2 8.3M12 12 6.6 15.3', width: 1.8 },
  /** Filled in a colour of its own. */
  heavy: { x: 18.2, y: 8.3, r: 2.6 },
  others: [
    { x: 6.6, y: 15.3, r: 1.7 },
    { x: 12, y: 12, r: 1.5 },
  ],
} as const satisfies { heavy: Disc; others: readonly Disc[]; [more: string]: unknown }
