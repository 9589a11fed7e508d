/** Texts that may be of any length, said in full up to a bound. */

/** The first letters of a text, and that there is more of it in the job. */
export const bounded = (words: string, most: number): string =>
  words.length > most ? `${words.slice(0, most)}… (read on in the job)` : words
