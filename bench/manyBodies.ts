/** Two hundred bodies that lie over each other, the most a part may have: read, judged, and how long it takes. */
import { readFileSync } from 'node:fs'
import { analyse } from '../src-core/analysis/analyse.ts'
import { parseJob } from '../src-core/job/parse.ts'

const BODIES = 200
const link = JSON.parse(readFileSync('examples/flat-link.evenswing', 'utf8')) as {
  part: { bodies: { id: string; outline: { x: number; y: number }[]; holes: unknown[] }[] }
}
const [body] = link.part.bodies
link.part.bodies = Array.from({ length: BODIES }, (_, i) => ({
  ...body!,
  id: `B${i}`,
  outline: Array.from({ length: 48 }, (_, k) => ({
    x: (i % 20) * 3 + 40 * Math.cos((k * Math.PI) / 24),
    y: Math.floor(i / 20) * 3 + 40 * Math.sin((k * Math.PI) / 24),
  })),
  holes: [],
}))
const text = JSON.stringify(link)
const read = parseJob(text)
const answer = read.ok ? 'read' : `refused: ${read.faults[0]!.path} ${read.faults[0]!.message}`
/** ms of processor time, so that what else runs on the machine does not count. */
function processor(run: () => unknown): number {
  const times = [0, 1, 2].map(() => {
    const begun = process.cpuUsage()
    run()
    return process.cpuUsage(begun).user / 1000
  })
  return Math.round(Math.min(...times))
}
console.log(`figure: ${BODIES} overlapping bodies: ${answer} in ${processor(() => parseJob(text))} ms`)
if (read.ok) {
  const { job } = read
  const judging = processor(() => analyse(structuredClone(job), job.setups[0]!.id))
  console.log(`figure: ${BODIES} overlapping bodies: judged in ${judging} ms`)
}
