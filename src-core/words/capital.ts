/** With its first letter in upper case; an empty text stays empty. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
