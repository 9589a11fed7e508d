/** The passes that bring a setup's bores to size, with a box each to tick, and room for what is measured. */
import { barWords } from '../../cutting/bar.ts'
import { planPasses, type Pass } from '../../passes/borePasses.ts'
import { dialReading } from '../../passes/dial.ts'
import { boreWorks, type BoreWork } from '../../passes/boreTask.ts'
import type { Job, Setup } from '../../job/schema.ts'
import { formatter, plain, type Formatter } from '../../units/format.ts'
import type { Notes } from './noteBlock.ts'

const KINDS = { skin: 'under the skin', rough: 'rough', finish: 'finish' } as const

/** One block for each bore with a tolerance; nothing for the others, which say so in the window. */
export const passNotes = (job: Job, setup: Setup): Notes[] =>
  boreWorks(job, setup).flatMap((work) => notesOf(work, formatter(job.displayUnits)))

function notesOf(work: BoreWork, fmt: Formatter): Notes[] {
  if (!work.ok) return []
  const { task, bore, cut, tolerance } = work
  const plan = planPasses(task)
  const bar = cut.bar ? barWords(cut.bar, fmt) : null
  const [low, high] = task.limits
  const title = `Bore ${bore.id}, ${fmt.bored(low)} to ${fmt.bored(high)}${tolerance ? ` (${tolerance})` : ''}`
  const { dial } = task
  const set = (pass: Pass) =>
    dial
      ? `, dial on by ${plain(dialReading(dial, pass.divisions), 3)} to ${plain(dialReading(dial, pass.reads), 3)} ${dial.unit}`
      : ''
  const line = (pass: Pass, i: number) =>
    `${i + 1} ${KINDS[pass.kind]}: depth ${fmt.bored(pass.depth)}${set(pass)}, then ${fmt.bored(pass.size)}; measured ______`
  const lines = plan.state === 'cut' ? plan.passes.map(line) : []
  const words = [...plan.words, ...(bar ? [bar] : [])]
  return [
    ...(lines.length > 0 ? [{ title, lines, ticks: true }] : []),
    ...(words.length > 0 ? [{ title: lines.length > 0 ? `Boring ${bore.id}` : title, lines: words }] : []),
  ]
}
