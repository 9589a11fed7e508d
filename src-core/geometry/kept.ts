/**
 * Results kept by the objects that they are made of. Those are never changed, so a result stands as long as its object lives,
 * and of a setup that is analysed on every frame of a drag only what moves is made anew.
 */

/** Makes the result of each object once. */
export function keptOf<O extends object, R>(make: (of: O) => R): (of: O) => R {
  const results = new WeakMap<O, R>()
  return (of) => {
    let result = results.get(of)
    if (result === undefined) results.set(of, (result = make(of)))
    return result
  }
}

/** By an object and a key beside it: a text, or an object that is found again. @param most results that are kept to an object. */
export function keptBy<O extends object, K, R>(most = Infinity): (of: O, key: K, make: () => R) => R {
  const results = new WeakMap<O, Map<K, R>>()
  return (of, key, make) => {
    let own = results.get(of)
    if (!own) results.set(of, (own = new Map<K, R>()))
    let result = own.get(key)
    if (result === undefined) {
      if (own.size >= most) own.clear()
      own.set(key, (result = make()))
    }
    return result
  }
}

/** The last result of an object and a key, as long as all else that it hangs on is the same. */
export function keptLast<O extends object, R>(): (
  of: O,
  hangsOn: readonly unknown[],
  make: () => R,
  key?: string,
) => R {
  const last = new WeakMap<O, Map<string, { readonly hangsOn: readonly unknown[]; readonly result: R }>>()
  return (of, hangsOn, make, key = '') => {
    let own = last.get(of)
    if (!own) last.set(of, (own = new Map()))
    const known = own.get(key)
    if (known && sameList(known.hangsOn, hangsOn)) return known.result
    const result = make()
    own.set(key, { hangsOn, result })
    return result
  }
}

/** Whether two lists hold the same objects and figures in one order. */
export const sameList = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((v, i) => Object.is(v, b[i]))
