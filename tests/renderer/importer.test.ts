import { beforeEach, describe, expect, test } from 'vitest'
import { importFile } from '../../src-core/import/importFile.ts'
import { Importer, type ImportPort } from '../../src-renderer/state/importer.svelte.ts'
import type { ImportReply, ImportRequest } from '../../src-renderer/workers/importMessages.ts'

/** Answers when told, as a worker would later. */
class FakeReader {
  asked: ImportRequest[] = []
  alive = true
  #message: (event: MessageEvent<ImportReply>) => void = () => undefined
  readonly port: ImportPort = {
    postMessage: (request: ImportRequest) => void this.asked.push(structuredClone(request)),
    addEventListener: (type: string, listener: (event: never) => void) => {
      if (type === 'message') this.#message = listener as (event: MessageEvent<ImportReply>) => void
    },
    terminate: () => void (this.alive = false),
  }
  answer(request: ImportRequest): void {
    if (request.kind !== 'read') return
    const result = importFile(request.name, request.bytes, request.options)
    const reply: ImportReply = { kind: 'read', id: request.id, result, lyings: [] }
    this.#message({ data: reply } as MessageEvent<ImportReply>)
  }
}

const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="30mm" viewBox="0 0 50 30"><rect width="50" height="30"/></svg>'
let readers: FakeReader[]
let importer: Importer
beforeEach(() => {
  readers = []
  importer = new Importer(() => {
    const reader = new FakeReader()
    readers.push(reader)
    return reader.port
  })
})
const file = (text: string, name: string) => new File([text], name)

describe('importer', () => {
  test('shows what was read and keeps it until it is let in', async () => {
    await importer.take(file(SVG, 'plate.svg'))
    expect(importer.status).toBe('reading')
    readers[0]!.answer(readers[0]!.asked[0]!)
    expect(importer.status).toBe('read')
    expect(importer.preview?.outlines).toHaveLength(1)
  })
  test('an answer to earlier options is not shown', async () => {
    await importer.take(file(SVG, 'plate.svg'))
    importer.set({ units: 'in' })
    const [first, second] = readers[0]!.asked
    readers[0]!.answer(second!)
    const shown = importer.preview
    readers[0]!.answer(first!)
    expect(importer.preview).toBe(shown)
    expect(shown?.units).toBe('in')
  })
  test('stopped: nothing comes in', async () => {
    await importer.take(file(SVG, 'plate.svg'))
    const reader = readers[0]!
    importer.stop()
    expect(reader.alive).toBe(false)
    reader.answer(reader.asked[0]!)
    expect(importer.preview).toBeNull()
    expect(importer.status).toBe('idle')
  })
  test('a refusal names its place', async () => {
    await importer.take(file('not a drawing', 'plate.dxf'))
    readers[0]!.answer(readers[0]!.asked[0]!)
    expect(importer.status).toBe('refused')
    expect(importer.faults[0]).toMatch(/: /)
  })
})
