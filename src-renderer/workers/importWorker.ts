import type { ImportPort } from '../state/importer.svelte.ts'

export const importWorker = (): ImportPort =>
  new Worker(new URL('./import.worker.ts', import.meta.url), { type: 'module' })
