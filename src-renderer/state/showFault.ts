/** Goes to where a fault is: the drawing board with the point chosen, the piece on the plate, or the step. */
import type { JobFault } from '../../src-core/job/fault.ts'
import { faultPlace } from '../editor/faultPlace.ts'
import type { App } from './app.svelte.ts'

export function showFault(
  { jobs, session, draw }: Pick<App, 'jobs' | 'session' | 'draw'>,
  fault: JobFault,
): void {
  const place = faultPlace(jobs.job, fault)
  session.dialog = null
  switch (place.kind) {
    case 'ring':
      if (!draw.active) draw.enter()
      draw.choose({ body: place.body, ring: place.ring }, place.vertex)
      draw.reveal++
      return
    case 'body':
      if (!draw.active) draw.enter()
      draw.choose({ body: place.body, ring: 0 }, null)
      draw.reveal++
      return
    case 'piece':
      draw.leave()
      session.setupId = place.setup
      session.show({ kind: 'piece', id: place.id }, jobs.job)
      return
    case 'setup':
      draw.leave()
      session.setupId = place.setup
      session.step = 'mounting'
      return
    case 'part':
      session.step = 'part'
      return
    case 'stock':
      session.step = 'counterweights'
      return
    case 'plate':
      session.step = 'machine'
  }
}
