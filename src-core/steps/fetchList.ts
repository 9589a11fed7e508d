/** What to fetch before a setup is put on the plate again: everything its job names, counted, in the order of use. */
import { KIND_WORDS } from '../hardware/words.ts'
import { isBoreCut, type Cut, type Fixture, type Footprint, type Hardware, type Job } from '../job/schema.ts'
import { fastenerOf, fastenerWords } from '../hardware/fastener.ts'
import { mountSetup } from '../mounting/mount.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter, plain, sizesText, type Formatter } from '../units/format.ts'

export interface FetchItem {
  /** Stable for the same job, to tick off by. */
  readonly id: string
  readonly group: 'part' | 'plate' | 'clamps' | 'bolts' | 'packing' | 'weights' | 'other' | 'tools'
  readonly count: number
  readonly words: string
}

/** Throws RangeError on an unknown setup. */
export const fetchList = (job: Job, setupId: string): readonly FetchItem[] =>
  mountedFetchList(mountSetup(job, setupId))

/** The same of a setup that is mounted already. */
export function mountedFetchList({ job, setup, pieces }: Mounted): readonly FetchItem[] {
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
  items.push(...counted(pieces, (p) => pieceWords(p, format), groupOf, 'piece'))
  const bolted = pieces.flatMap((p) =>
    fastenerOf(p.item)?.thread ? Array.from({ length: Math.max(1, p.fastenings.length) }, () => p) : [],
  )
  items.push(
    ...counted(
      bolted,
      (p) => boltWords(p, format),
      () => 'bolts',
      'bolt',
    ),
  )
  for (const cut of setup.cuts ?? [])
    items.push({ id: `tool ${cut.id}`, group: 'tools', count: 1, words: toolWords(job, cut, format) })
  return items
}

function toolWords(job: Job, cut: Cut, format: Formatter): string {
  const bore = isBoreCut(cut) ? job.part.bores.find((b) => b.id === cut.bore) : undefined
  const finish = bore ? format.length(bore.diameter) : ''
  switch (cut.kind) {
    case 'drill':
      return `${cut.tool} drill ${format.length(cut.diameter)}`
    case 'ream':
      return `${cut.tool} reamer ${finish}`
    case 'bore':
      return `${cut.tool} boring tool${bore ? ` for bore ${bore.id}, ${finish} finish` : ''}`
    case 'face':
      return `${cut.tool} facing tool`
    case 'turn':
      return `${cut.tool} turning tool`
    case 'recess':
      return `${cut.tool} recessing tool`
  }
}

const ORDER: readonly FetchItem['group'][] = ['clamps', 'packing', 'weights', 'other', 'bolts']

function groupOf({ item }: MountedPiece): FetchItem['group'] {
  switch (item.kind) {
    case 'clamp':
    case 'press':
      return 'clamps'
    case 'packing':
      return 'packing'
    case 'weight':
    case 'counterweight':
      return 'weights'
    case 'fixture':
    case 'anglePlate':
    case 'vee':
    case 'twin':
    case 'bolt':
    case 'stop':
    case 'dowel':
    case 'bracket':
    case 'other':
      return 'other'
  }
}

/** Pieces that read the same are one line with their count. */
function counted(
  pieces: readonly MountedPiece[],
  words: (piece: MountedPiece) => string,
  group: (piece: MountedPiece) => FetchItem['group'],
  prefix: string,
): FetchItem[] {
  const lines = new Map<string, FetchItem>()
  for (const piece of pieces) {
    const text = words(piece)
    const known = lines.get(text)
    const id = known?.id ?? `${prefix}-${piece.item.id}`
    lines.set(text, { id, group: group(piece), count: (known?.count ?? 0) + 1, words: text })
  }
  return [...lines.values()].sort((a, b) => ORDER.indexOf(a.group) - ORDER.indexOf(b.group))
}

function pieceWords({ item, mass }: MountedPiece, format: Formatter): string {
  return [item.name || KIND_WORDS[item.kind], sizeWords(item, format), format.mass(mass)]
    .filter(Boolean)
    .join(', ')
}

function sizeWords(item: Hardware, format: Formatter): string {
  const by = (...sizes: readonly number[]) => sizesText(format, sizes)
  if (item.kind === 'clamp') return `strap ${by(item.strap.length, item.strap.width, item.strap.thickness)}`
  if (item.kind === 'weight') return item.stack.map(({ stock, count }) => `${count} × ${stock}`).join(' + ')
  if (item.kind === 'stop' || item.kind === 'anglePlate') return by(...item.size)
  if (item.kind === 'vee') return `${by(...item.size)}, ${plain(item.angle, 1)}° vee`
  if (item.kind === 'dowel') return `${format.length(item.diameter)} diameter × ${format.length(item.length)}`
  if (item.kind === 'bolt' || item.kind === 'twin') return ''
  if (item.kind === 'fixture') return subPlateWords(item, format)
  const { footprint, height } = item
  return shapeWords(footprint, height, format)
}

function subPlateWords({ footprint, bore, thickness, holes }: Fixture, format: Formatter): string {
  const tapped = [...new Set(holes.flatMap((h) => h.thread ?? []))]
  const opening = bore > 0 ? `, ${format.length(bore)} bore` : ''
  const threads = tapped.length > 0 ? `, tapped ${tapped.join(', ')}` : ''
  return `${shapeWords(footprint, thickness, format)}${opening}${threads}`
}

function shapeWords(footprint: Footprint, height: number, format: Formatter): string {
  if ('circle' in footprint) return `${format.length(footprint.circle)} diameter × ${format.length(height)}`
  if ('rect' in footprint) return sizesText(format, [...footprint.rect, height])
  return `${format.length(height)} high`
}

function boltWords({ item, z1, fastenings }: MountedPiece, format: Formatter): string {
  const fastener = fastenerOf(item)
  const tightened = fastener?.torque ? `, tightened to ${format.torque(fastener.torque)}` : ''
  const known = fastenings[0]
  const reach = known
    ? `${format.length(known.length ?? known.needed)} long`
    : `reaching ${format.length(z1)} above the plate`
  return `${fastenerWords(fastener)} bolt or stud with nut and washer, ${reach}${tightened}`
}
