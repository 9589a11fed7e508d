/** Starts the book's reader in a thread of its own, within a limit of memory. */
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import type { Answer, Order } from './readerMessages.ts'

/** MB: a job of the largest size takes a third of it. */
const MEMORY = 400

/** A reader as the book sees it. */
export interface Reader {
  ask(order: Order): void
  /** Called with each answer. */
  onanswer: (answer: Answer) => void
  /** Called when it ended by itself: it ran out of memory, or it has a fault. */
  onend: (why: 'memory' | 'fault') => void
  stop(): void
}

export type StartReader = () => Reader

export function startReader(memory = MEMORY): Reader {
  const worker = new Worker(...program(memory))
  const reader: Reader = {
    ask: (order) => worker.postMessage(order),
    onanswer: () => undefined,
    onend: () => undefined,
    // A thread that hangs in the system ends when the system lets go of it; nobody waits for that.
    stop: () => {
      reader.onanswer = reader.onend = () => undefined
      void worker.terminate()
    },
  }
  worker.on('message', (answer: Answer) => reader.onanswer(answer))
  // A listener holds the program, so this comes after it. Once the reader is ready, a program that waits for an answer has
  // a clock that holds it, and one that has nothing else to do may end.
  worker.once('message', () => worker.unref())
  let isEnded = false
  const end = (why: 'memory' | 'fault') => {
    if (!isEnded) reader.onend(why)
    isEnded = true
  }
  worker.on('error', (error: NodeJS.ErrnoException) =>
    end(error.code === 'ERR_WORKER_OUT_OF_MEMORY' ? 'memory' : 'fault'),
  )
  worker.on('exit', () => end('fault'))
  return reader
}

/** Built, it lies beside the program; in the sources it is run as it is. */
function program(memory: number): ConstructorParameters<typeof Worker> {
  const limits = { resourceLimits: { maxOldGenerationSizeMb: memory } }
  const built = new URL('./bookReader.js', import.meta.url)
  if (existsSync(fileURLToPath(built))) return [built, limits]
  const [runner, source] = [import.meta.resolve('tsx/esm/api'), new URL('./reader.ts', import.meta.url).href]
  const code = `import('${runner}').then(({ register }) => (register(), import('${source}')))`
  return [new URL(`data:text/javascript,${encodeURIComponent(code)}`), limits]
}
