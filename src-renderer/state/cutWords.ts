import type { Cut } from '../../src-core/job/schema.ts'
import { capital } from '../../src-core/words/capital.ts'
import type { Formatter } from '../../src-core/units/format.ts'

/** What brings a bore to size, as one would say it. `finish` in mm. */
export function cutWords(cuts: readonly Cut[], finish: number, fmt: Formatter): string {
  const words = cuts.flatMap((cut) =>
    cut.kind === 'drill'
      ? [`drilled ${fmt.length(cut.diameter)}`]
      : cut.kind === 'bore'
        ? [`bored to ${fmt.length(finish)}`]
        : [],
  )
  if (words.length === 0) return 'Nothing: the bore has its finish. Say in Mounting what else is cut.'
  return `${capital(words.join(', then '))}, with ${cuts[0]!.tool} to start from.`
}
