/**
 * The page's key in a browser. The host hands it over in the part of an address that is never sent (`#key=…`), and the
 * page sends it with every request: a cookie goes to every port of this machine, and so to programs of others.
 */
export const KEY_HEADER = 'x-evenswing-key'
export const KEY_FRAGMENT = 'key'
