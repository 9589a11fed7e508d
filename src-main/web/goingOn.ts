/** A page that goes on to an address at once, without a script. */
export const goingOnTo = (address: string): string =>
  `<!doctype html><meta charset="utf-8"><meta name="referrer" content="no-referrer"><title>Evenswing</title><meta http-equiv="refresh" content="0;url=${address}">`
