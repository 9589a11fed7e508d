/** Reads drawings and meshes off the window's thread. */
import { importFile } from '../../src-core/import/importFile.ts'
import { toBodies } from '../../src-core/import/toBodies.ts'
import type { Preview } from '../../src-core/import/types.ts'
import type { ImportReply, ImportRequest } from './importMessages.ts'
import { lyingsOf } from './lyings.ts'

let last: Preview | null = null
const post = (reply: ImportReply) => postMessage(reply)

addEventListener('message', ({ data }: MessageEvent<ImportRequest>) => {
  if (data.kind === 'read') {
    const result = importFile(data.name, data.bytes, data.options)
    last = result.ok ? result : null
    const lyings = lyingsOf(last?.solid?.triangles ?? null)
    // The triangles stay here: the window shows what was counted, not each of them.
    const shown =
      result.ok && result.solid
        ? { ...result, solid: { ...result.solid, triangles: new Float64Array() } }
        : result
    post({ kind: 'read', id: data.id, result: shown, lyings })
  } else {
    post({
      kind: 'bodies',
      id: data.id,
      result: last ? toBodies(last, data.options) : { ok: false, reason: 'nothing was read' },
    })
  }
})
