/** A page that goes on to an address at once, without a script; it has no icon to ask the host for. */
export const goingOnTo = (address: string): string =>
  `<!doctype html><meta charset="utf-8"><meta name="referrer" content="no-referrer"><link rel="icon" href="data:,"><title>Evenswing</title><meta http-equiv="refresh" content="0;url=${address}">`
