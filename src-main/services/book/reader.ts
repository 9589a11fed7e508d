/**
 * The book's reader: a thread of its own that looks at files and reads jobs. It reads by calls that wait, so that a
 * drive that hangs holds up this thread alone, and what it holds in memory ends with it.
 */
import { isUtf8 } from 'node:buffer'
import { accessSync, constants, readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { parentPort } from 'node:worker_threads'
import { systemCode } from '../hostError.ts'
import { readSummary } from './readSummary.ts'
import type { Answer, FileAnswer, Order } from './readerMessages.ts'

const port = parentPort!
const tell = (answer: Answer) => port.postMessage(answer)

function names(folder: string): Answer {
  try {
    const good: string[] = []
    const odd: string[] = []
    for (const bytes of readdirSync(folder, { encoding: 'buffer' }))
      if (isUtf8(bytes)) good.push(bytes.toString('utf8'))
      else odd.push(bytes.toString('utf8'))
    return { kind: 'names', names: good, odd, disk: statSync(folder).dev, readOnly: !mayWrite(folder) }
  } catch (error) {
    return { kind: 'failedFolder', code: systemCode(error) || 'EIO' }
  }
}

function mayWrite(path: string): boolean {
  try {
    accessSync(path, constants.W_OK)
    return true
  } catch {
    return false
  }
}

function look(folder: string, name: string): FileAnswer {
  const state = statSync(join(folder, name))
  if (!state.isFile()) return { kind: 'look', name, look: null }
  // By its mode, which costs nothing more; opening a job asks the system itself.
  const readOnly = (state.mode & 0o222) === 0
  return { kind: 'look', name, look: { size: state.size, time: state.mtimeMs, readOnly } }
}

function attempt(name: string, work: () => FileAnswer): FileAnswer {
  try {
    return work()
  } catch (error) {
    // It went away while the folder was read.
    if (systemCode(error) === 'ENOENT') return { kind: 'look', name, look: null }
    return { kind: 'failed', name, code: systemCode(error) || 'EIO' }
  }
}

const onpart = () => tell({ kind: 'part' })

port.on('message', (order: Order) => {
  if (order.kind === 'names') return tell(names(order.folder))
  for (const name of order.names)
    tell(
      attempt(name, () =>
        order.kind === 'look'
          ? look(order.folder, name)
          : { kind: 'read', name, ...readSummary(join(order.folder, name), name, onpart) },
      ),
    )
})
tell({ kind: 'ready' })
