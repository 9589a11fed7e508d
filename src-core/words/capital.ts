/** With its first letter in upper case; an empty text stays empty. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** With its first letter in lower case: a sentence of our own as a part of a longer one. */
export const uncapital = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)
