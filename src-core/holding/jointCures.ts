/** What would cure a joint that does not hold; nothing that cannot be done. */
import { fastenerOf } from '../hardware/fastener.ts'
import { findThread, proofLoad } from '../hardware/threads.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import type { Clamp } from '../job/schema.ts'
import { isVeeBlock, type VeeBlock } from '../mounting/shelf.ts'
import type { Mounted } from '../mounting/types.ts'
import type { Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { preloadOf } from './preloadOf.ts'
import { WANTED_FACTOR, type JudgedJoint } from './judged.ts'

/** Times the preload, below which more torque is no cure worth a word. */
const WORTH_TIGHTENING = 1.05

/** One sentence. */
export function curesOf(mounted: Mounted, fmt: Formatter, j: JudgedJoint): string {
  const cures = j.built.kind === 'part' ? partCures(mounted, j) : pieceCures(mounted, fmt, j)
  const { speed } = mounted.setup
  // Down to a tenth of a turn a minute is no cure.
  if (speed !== null && Math.floor(j.rpmAt2) > 0)
    cures.push(`run slower, for this joint at ${fmt.speedLimit(j.rpmAt2)} at most`)
  if (cures.length === 0) return ''
  const all = cures.length === 1 ? cures[0]! : `${cures.slice(0, -1).join(', ')} or ${cures.at(-1)!}`
  return `${capital(all)}.`
}

function partCures(mounted: Mounted, { result }: JudgedJoint): string[] {
  const { setup } = mounted
  const tips = result?.mode === 'tipping'
  const clamps = mounted.pieces.filter((p) => preloadLeft(mounted, p.item.id) > WORTH_TIGHTENING).length > 0
  return [
    tips ? 'add a clamp on the far side' : 'add a clamp',
    ...(tips ? [] : ['put a stop hard against the edge that it would slide towards']),
    ...(tips ? ['put packing farther out towards that edge'] : []),
    ...(tips && setup.packing > 0 ? ['use lower packing'] : []),
    ...(clamps ? ['tighten within the proof load'] : []),
    ...(result?.loading?.includes('the cut') ? ['take a lighter cut'] : []),
  ]
}

function pieceCures(mounted: Mounted, fmt: Formatter, { built, result }: JudgedJoint): string[] {
  const item = mounted.setup.hardware.find((h) => h.id === built.id)
  const torque = item && fastenerOf(item)?.torque
  const factor = result?.factor ?? 0
  const more = factor > 0 ? WANTED_FACTOR / factor : Infinity
  const cures: string[] = []
  const isBlock = item !== undefined && isVeeBlock(item)
  // All that a joint carries grows with its presses.
  if (torque && more <= preloadLeft(mounted, built.id)) cures.push(`tighten to ${fmt.torque(torque * more)}`)
  else if (built.kind === 'weight') cures.push('split it over two studs', 'use a larger stud')
  else if (isBlock) cures.push(...blockCures(mounted, fmt, item, more, result?.loading ?? null))
  else if (built.kind === 'piece') cures.push('add a second stud', 'use a larger one')
  else cures.push('use a larger stud', 'use a lighter strap')
  if (result?.mode === 'tipping') cures.push(tipCure(built.kind, isBlock))
  return cures
}

/** Its straps as tight as cures it, or as tight as they bear. @param more by how many times too little it is pressed. */
function blockCures(
  mounted: Mounted,
  fmt: Formatter,
  { at }: VeeBlock,
  more: number,
  loading: string | null,
): string[] {
  const straps = mounted.setup.hardware.filter(
    (h): h is Clamp => h.kind === 'clamp' && 'on' in h.at && h.at.on === at.on && !!h.torque,
  )
  const left = Math.min(...straps.map((s) => preloadLeft(mounted, s.id)))
  const tighten = straps.map((s) => `${s.id} to ${fmt.torque((s.torque ?? 0) * more)}`).join(', ')
  return [
    ...(straps.length > 0 && more <= left ? [`tighten ${tighten}`] : []),
    ...(straps.length > 0 && more > left && left > WORTH_TIGHTENING
      ? ['tighten its straps within the proof load']
      : []),
    'put another strap from its shelf over the round',
    'bolt it through its lands',
    ...(loading?.includes('the cut') ? ['take a lighter cut'] : []),
  ]
}

const tipCure = (kind: JudgedJoint['built']['kind'], isBlock: boolean): string =>
  kind === 'clamp' ? 'use a lower heel' : isBlock ? 'use a wider block' : 'use a wider foot'

/** By how many times a piece's first stud may be tightened more, its high side within proof load; 0 where it is not known. */
function preloadLeft(mounted: Mounted, id: string): number {
  const item = mounted.setup.hardware.find((h) => h.id === id)
  const fastener = item && fastenerOf(item)
  const thread = fastener?.thread ? findThread(fastener.thread) : null
  if (!fastener?.strengthClass || !thread) return 0
  const proof = proofLoad(thread, fastener.strengthClass)
  const lubricated = item && 'lubricated' in item ? item.lubricated : null
  const stud = { thread: fastener.thread, class: fastener.strengthClass }
  const { preload } = preloadOf({ stud, torque: fastener.torque, lubricated }, uncertaintiesOf(mounted.job))
  return proof !== null && preload ? proof / preload.high : 0
}
