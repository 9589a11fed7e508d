/** Gear speeds as they are typed, with commas or spaces between; rpm, lowest first. Null where one is none. */
export function readSpeeds(text: string): number[] | null {
  const speeds = text
    .split(/[\s,;]+/)
    .filter((t) => t !== '')
    .map(Number)
  return speeds.length > 0 && speeds.every((s) => s > 0 && s <= 1e5)
    ? [...new Set(speeds)].sort((a, b) => a - b)
    : null
}

export const speedsFault = (text: string): string | null =>
  readSpeeds(text) ? null : 'Write speeds above 0 with commas between, such as 45, 70, 110.'
