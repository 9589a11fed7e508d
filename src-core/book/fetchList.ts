/** What to fetch before a setup is put on the plate again: everything its job names, counted, in the order of use. */
import type { Hardware, Job } from '../job/schema.ts'
import { findSetup } from '../mounting/mount.ts'
import { formatter, type Formatter } from '../units/format.ts'

export interface FetchItem {
  /** Stable for the same job, to tick off by. */
  readonly id: string
  readonly group: 'part' | 'plate' | 'clamps' | 'bolts' | 'packing' | 'weights' | 'other' | 'tools'
  readonly count: number
  readonly words: string
}

/** Throws RangeError on an unknown setup. */
export function fetchList(job: Job, setupId: string): readonly FetchItem[] {
  const setup = findSetup(job, setupId)
  const format = formatter(job.displayUnits)
  const items: FetchItem[] = [
    {
      id: 'part',
      group: 'part',
      count: 1,
      words: [job.part.name || 'the part', job.partNumber, job.part.material].filter(Boolean).join(', '),
    },
    {
      id: 'plate',
      group: 'plate',
      count: 1,
      words: `${job.plate.name || 'faceplate'}, ${format.length(job.plate.diameter)} diameter`,
    },
  ]
  if (setup.packing > 0 && !setup.hardware.some((h) => h.kind === 'packing'))
    items.push({
      id: 'packing-height',
      group: 'packing',
      count: 1,
      words: `packing ${format.length(setup.packing)} high under the part`,
    })
  items.push(...counted(setup.hardware, (h) => pieceWords(h, format), groupOf, 'piece'))
  const bolted = setup.hardware.filter((h) => h.clamp?.thread)
  items.push(
    ...counted(
      bolted,
      (h) => boltWords(h, format),
      () => 'bolts',
      'bolt',
    ),
  )
  const { cut } = setup
  if (cut) {
    const bore = job.part.bores.find((b) => b.id === cut.bore)
    items.push({
      id: 'tool',
      group: 'tools',
      count: 1,
      words: `${cut.tool} boring tool${bore ? ` for bore ${bore.id}, ${format.length(bore.diameter)} finish` : ''}`,
    })
    if (cut.drill)
      items.push({ id: 'drill', group: 'tools', count: 1, words: `drill ${format.length(cut.drill)}` })
  }
  return items
}

const ORDER: readonly FetchItem['group'][] = ['clamps', 'packing', 'weights', 'other', 'bolts']

function groupOf({ kind }: Hardware): FetchItem['group'] {
  if (kind === 'clamp') return 'clamps'
  if (kind === 'packing') return 'packing'
  return kind === 'counterweight' ? 'weights' : 'other'
}

/** Pieces that read the same are one line with their count. */
function counted(
  pieces: readonly Hardware[],
  words: (piece: Hardware) => string,
  group: (piece: Hardware) => FetchItem['group'],
  prefix: string,
): FetchItem[] {
  const lines = new Map<string, FetchItem>()
  for (const piece of pieces) {
    const text = words(piece)
    const known = lines.get(text)
    const id = known?.id ?? `${prefix}-${piece.id}`
    lines.set(text, { id, group: group(piece), count: (known?.count ?? 0) + 1, words: text })
  }
  return [...lines.values()].sort((a, b) => ORDER.indexOf(a.group) - ORDER.indexOf(b.group))
}

function pieceWords(piece: Hardware, format: Formatter): string {
  return [piece.name || piece.kind, sizeWords(piece, format), format.mass(piece.mass)].join(', ')
}

function sizeWords({ footprint, height }: Hardware, format: Formatter): string {
  if ('circle' in footprint) return `${format.length(footprint.circle)} diameter × ${format.length(height)}`
  if ('rect' in footprint)
    return `${format.length(footprint.rect[0])} × ${format.length(footprint.rect[1])} × ${format.length(height)}`
  return `${format.length(height)} high`
}

function boltWords({ clamp, base, height }: Hardware, format: Formatter): string {
  const kind = [clamp?.thread, clamp?.class].filter(Boolean).join(' ')
  const torque = clamp?.torque ? `, tightened to ${format.torque(clamp.torque)}` : ''
  return `${kind} bolt or stud with nut and washer, reaching ${format.length(base + height)} above the plate${torque}`
}
