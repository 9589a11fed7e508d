/** Somebody else's sentence, of the system or of a library, as a part of a longer one, which ends by itself. */
export const clause = (text: string): string => text.replace(/[\s.]+$/, '')
