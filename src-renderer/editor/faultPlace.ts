/** Where a fault of the job is, from the path of its field, and what to call that place. */
import type { JobFault } from '../../src-core/job/fault.ts'
import type { Job } from '../../src-core/job/schema.ts'

export type FaultPlace =
  | { readonly kind: 'ring'; readonly body: string; readonly ring: number; readonly vertex: number }
  | { readonly kind: 'body'; readonly body: string }
  | { readonly kind: 'piece'; readonly setup: string; readonly id: string }
  | { readonly kind: 'setup'; readonly setup: string }
  | { readonly kind: 'plate' | 'part' | 'stock' }

export function faultPlace(job: Job, fault: JobFault): FaultPlace {
  const body = job.part.bodies[indexAfter(fault.path, 'part.bodies')]
  if (body) {
    const ring = /\]\.(outline|holes\[(\d+)\])\[(\d+)\]/.exec(fault.path)
    return ring
      ? {
          kind: 'ring',
          body: body.id,
          ring: ring[2] === undefined ? 0 : Number(ring[2]) + 1,
          vertex: Number(ring[3]),
        }
      : { kind: 'body', body: body.id }
  }
  const setup = job.setups[indexAfter(fault.path, 'setups')]
  if (setup) {
    const piece = setup.hardware[indexAfter(fault.path, 'hardware')]
    return piece ? { kind: 'piece', setup: setup.id, id: piece.id } : { kind: 'setup', setup: setup.id }
  }
  return { kind: fault.path.startsWith('stock') ? 'stock' : fault.path.startsWith('part') ? 'part' : 'plate' }
}

/** −1 where the path has no such list. */
function indexAfter(path: string, list: string): number {
  const found = new RegExp(`(?:^|\\.)${list.replace('.', '\\.')}\\[(\\d+)\\]`).exec(path)
  return found ? Number(found[1]) : -1
}

/** `body link, hole 2, point 4`; the field's path where there is nothing plainer. */
export function placeWords(job: Job, fault: JobFault): string {
  const place = faultPlace(job, fault)
  switch (place.kind) {
    case 'ring':
      return `Body ${place.body}, ${place.ring === 0 ? 'outline' : `hole ${place.ring}`}, point ${place.vertex + 1}`
    case 'body':
      return `Body ${place.body}`
    case 'piece':
      return `${place.id} in setup ${place.setup}`
    case 'setup':
      return `Setup ${place.setup}`
    case 'plate':
    case 'part':
    case 'stock':
      return fault.path
  }
}
