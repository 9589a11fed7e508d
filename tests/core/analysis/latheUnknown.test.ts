/** Leaving out what is known of a lathe never makes a verdict better, on real set-ups and on lathes that are too small. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job, Lathe } from '../../../src-core/job/schema.ts'
import type { Verdict } from '../../../src-core/verdict/speeds.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { crankWeb, pumpBody, sheave } from '../../helpers/turnersJobs.ts'
import { gunmetalStrap, inchBracket, lever } from '../../helpers/turnersOtherJobs.ts'

const RANK: Readonly<Record<Verdict, number>> = { go: 0, caution: 1, 'not-judged': 2, stop: 3 }
const JOBS: Readonly<Record<string, Job>> = {
  crankWeb: crankWeb(),
  pumpBody: pumpBody(),
  sheave: sheave(),
  inchBracket: inchBracket(),
  lever: lever(),
  gunmetalStrap: gunmetalStrap(),
  link: shippedJob('flat-link'),
  bracket: shippedJob('bearing-bracket'),
}
/** As given, with a tool post in the way, with a quick brake, and with a slide that is too high. */
const LATHES: readonly ((lathe: Lathe) => Lathe)[] = [
  (lathe) => lathe,
  (lathe) => ({ ...lathe, barReach: 5, carriage: { profile: [{ behind: 5, radius: 30 }] } }),
  (lathe) => ({ ...lathe, nose: { kind: 'screwed', locked: false }, brakeTime: 0.05 }),
  (lathe) => ({ ...lathe, barReach: 0, carriage: null, swingOverCrossSlide: 60 }),
]
const LEFT_OUT: readonly Partial<Lathe>[] = [
  { barReach: null },
  { carriage: null },
  { barReach: null, carriage: null },
  { nose: null },
]

const verdicts = (job: Job, lathe: Lathe, setup: string) =>
  analyse({ ...job, lathe }, setup).speeds.map((s) => RANK[s.verdict])

test.each(Object.keys(JOBS))('%s', (name) => {
  const job = JOBS[name]!
  let worse = 0
  for (const change of LATHES)
    for (const { id } of job.setups) {
      const known = change(job.lathe)
      const before = verdicts(job, known, id)
      worse += before.filter((rank) => rank >= RANK['not-judged']).length
      for (const less of LEFT_OUT)
        verdicts(job, { ...known, ...less }, id).forEach((after, i) =>
          expect(after, `${id} ${JSON.stringify(less)}`).toBeGreaterThanOrEqual(Math.min(before[i]!, 2)),
        )
    }
  expect(worse).toBeGreaterThan(0)
})
