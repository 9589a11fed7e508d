/**
 * Keys of findings that the last change brought. A change that brings and takes nothing leaves what was new before:
 * it was about something else.
 */
export function broughtBy(
  before: ReadonlySet<string>,
  now: ReadonlySet<string>,
  fresh: ReadonlySet<string>,
): ReadonlySet<string> {
  const same = before.size === now.size && [...now].every((key) => before.has(key))
  return same ? fresh : new Set([...now].filter((key) => !before.has(key)))
}
