/** mm: 100 m, far beyond any lathe, near enough for double precision to hold a nanometre. */
export const COORDINATE_LIMIT = 1e5
