/** Ends of a command that are the caller's doing: one line on stderr, exit code 2. */

export const EXIT = { done: 0, stopFindings: 1, refused: 2 } as const

export class Failure extends Error {
  constructor(message: string) {
    super(message)
    this.name = 'Failure'
  }
}

/** Any text as one printable line: control characters (which could also steer a terminal) are shown as escapes. */
export function oneLine(text: string, longest = 600): string {
  const flat = printable(text.replace(/\s*[\r\n]+\s*/g, ' '))
  const chars = Array.from(flat)
  return chars.length > longest ? `${chars.slice(0, longest).join('')}…` : flat
}

/** Text with its control and direction-changing characters made visible; line feeds become blanks. */
export function printable(text: string): string {
  return text
    .replace(/[\t\r\n]+/g, ' ')
    .replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, (c) => `\\u${c.codePointAt(0)!.toString(16).padStart(4, '0')}`)
}
