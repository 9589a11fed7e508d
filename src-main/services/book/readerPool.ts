/**
 * Asks readers about many files. One file that hangs or bursts the memory costs its reader, not the others: they are
 * asked of a new one.
 */
import type { FileAnswer, Names, Order } from './readerMessages.ts'
import type { Reader, StartReader } from './readerThread.ts'

/** ms: a drive of which nothing comes in this time is taken to be lost. */
const PATIENCE = 8_000
/** Two, since a slow drive is waited for more than it is read. */
const READERS = 2
const BATCH = { look: 64, read: 4 }
/** So many files in a row without an answer: the drive is lost, and the rest is not waited for. */
const LOST_AFTER = 3

export type Lost = 'silent' | 'memory' | 'fault'

export interface ReaderPool {
  /** Null where the folder does not answer. */
  names(folder: string): Promise<Names | { readonly kind: 'failedFolder'; readonly code: string } | null>
  /** Tells of every file once, in any order. */
  files(
    kind: 'look' | 'read',
    folder: string,
    names: readonly string[],
    tell: (name: string, answer: FileAnswer | Lost) => void,
  ): Promise<void>
}

export function createReaderPool(start: StartReader): ReaderPool {
  const idle: Reader[] = []

  /** Asks one thing; `take` gets each answer and says whether it was the last. Gives why it ended before that. */
  async function ask(
    order: Order,
    take: (answer: FileAnswer | Names | Failed) => boolean,
  ): Promise<Lost | null> {
    const old = idle.pop()
    const reader = old ?? start()
    const why = await new Promise<Lost | null>((done) => {
      let timer: NodeJS.Timeout | undefined
      const wait = () => {
        clearTimeout(timer)
        timer = setTimeout(() => done('silent'), PATIENCE)
      }
      const finish = (with_: Lost | null) => {
        clearTimeout(timer)
        done(with_)
      }
      reader.onend = finish
      reader.onanswer = (answer) => {
        // How long it takes to start says nothing about the drive, nor how long a large file takes.
        if (answer.kind === 'ready' || answer.kind === 'part') return wait()
        if (take(answer)) finish(null)
        else wait()
      }
      reader.ask(order)
      if (old) wait()
    })
    if (why === null) idle.push(reader)
    else reader.stop()
    return why
  }

  return {
    async names(folder) {
      let found: Names | Failed | null = null
      const lost = await ask({ kind: 'names', folder }, (answer) => {
        if (answer.kind === 'names' || answer.kind === 'failedFolder') found = answer
        return true
      })
      return lost === null ? found : null
    },
    async files(kind, folder, names, tell) {
      const queue = [...names].reverse()
      let inARow = 0
      const lane = async () => {
        for (;;) {
          const batch = queue.splice(-BATCH[kind]).reverse()
          if (batch.length === 0) return
          let answered = 0
          const lost = await ask({ kind, folder, names: batch }, (answer) => {
            inARow = 0
            tell(batch[answered]!, answer as FileAnswer)
            return ++answered === batch.length
          })
          if (lost === null) continue
          tell(batch[answered]!, lost)
          queue.push(...batch.slice(answered + 1).reverse())
          if (lost === 'memory' || ++inARow < LOST_AFTER) continue
          for (const name of queue.splice(0)) tell(name, lost)
        }
      }
      await Promise.all(Array.from({ length: READERS }, lane))
    },
  }
}

type Failed = { readonly kind: 'failedFolder'; readonly code: string }
