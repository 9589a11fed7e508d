import type { PicturePort } from '../state/pictureWork.ts'

export const pictureWorker = (): PicturePort =>
  new Worker(new URL('./picture.worker.ts', import.meta.url), { type: 'module' })
