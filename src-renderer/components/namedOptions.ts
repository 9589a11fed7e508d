import { THREADS } from '../../src-core/hardware/threads.ts'

interface Option {
  readonly value: string
  readonly label: string
}

/** None, each name of a list, and what is given now where the list lacks it. */
export const namedOptions = (
  none: string,
  names: readonly string[],
  now: string | null | undefined,
): readonly Option[] => [
  { value: '', label: none },
  ...[...names, ...(now && !names.includes(now) ? [now] : [])].map((name) => ({ value: name, label: name })),
]

export const THREAD_NAMES: readonly string[] = THREADS.map((t) => t.name)
