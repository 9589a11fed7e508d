/** Steps that bolt things on: what places the part, what holds it in its tightening order, what balances it. */
import { KIND_WORDS } from '../hardware/words.ts'
import { standOf } from '../holding/stand.ts'
import {
  isClamp,
  isCounterweight,
  isShelf,
  type Clamp,
  type Hardware,
  type Job,
  type Weight,
} from '../job/schema.ts'
import { isVeeBlock } from '../mounting/shelf.ts'
import { shelfSize } from '../mounting/shelfSize.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { capital } from '../words/capital.ts'
import { sizesText, type Formatter } from '../units/format.ts'
import { boltFacts, boltWarns, placeWords } from './fastened.ts'
import { facts, step, type Step } from './step.ts'

/** Those with a place in the order first, by it; the others as the setup has them. */
export function inOrder(pieces: readonly MountedPiece[]): MountedPiece[] {
  const place = (item: Hardware) => ('order' in item ? (item.order ?? Infinity) : Infinity)
  return pieces
    .map((piece, i) => ({ piece, i }))
    .sort((a, b) => {
      const x = place(a.piece.item)
      const y = place(b.piece.item)
      return x === y ? a.i - b.i : x - y
    })
    .map(({ piece }) => piece)
}

const spannerOf = ({ clampingKit }: Job): number | null => clampingKit?.spanner ?? null

/** mm from the axis to the shelf or lands that carry the part, or the block that it lies in; null for any other fixture. */
function sizeToSet({ shelves = [] }: Mounted, id: string): number | null {
  const view = shelves.find((s) => s.shelf?.carriesPart)
  const size = view && shelfSize(view)
  return size?.of.id === id ? size.stands : null
}

const BLOCK_DOES = [
  'Clean shelf and block; no burr.',
  'Lay it in its place: straps over the round will hold it down.',
]
const BOLTED_BLOCK_DOES = [
  'Clean shelf and block; no burr.',
  'Lay it in its place and tighten its bolts to the torque.',
]

/** Loose blocks after what they lie on. */
const blocksLast = (pieces: readonly MountedPiece[]): MountedPiece[] =>
  [false, true].flatMap((block) => pieces.filter((p) => isVeeBlock(p.item) === block))

/** Sub-plates, angle plates and vees, which are on before what stands on them. */
export const fixtureSteps = (mounted: Mounted, fmt: Formatter): Step[] =>
  blocksLast(mounted.pieces).flatMap((piece) => {
    const { item } = piece
    const { job } = mounted
    if (item.kind !== 'fixture' && !isShelf(item)) return []
    const size = sizeToSet(mounted, item.id)
    const face = item.kind === 'vee' ? 'Lands to the axis' : 'Shelf to the axis'
    return step(`locate:${item.id}`, 'locate', titleOf(item), {
      facts: [
        ...facts(
          ['Place', placeWords(piece, fmt)],
          [face, size === null ? null : fmt.size(size)],
          ['Mass', fmt.mass(piece.mass)],
          ['Bolts', String(item.bolts.length)],
        ),
        ...boltFacts(piece, fmt, spannerOf(job)),
      ],
      does: isVeeBlock(item)
        ? item.bolts.length > 0
          ? BOLTED_BLOCK_DOES
          : BLOCK_DOES
        : [
            'Clean both faces; no burr.',
            'Put it in its place, nip all its bolts crosswise, then tighten them to the torque.',
            size === null
              ? 'See that its face runs true.'
              : 'Set that size with gauge and indicator before the bolts are tight, and try it again after.',
          ],
      warns: boltWarns(piece),
      lit: [item.id],
    })
  })

/** Stops, dowels and whatever else is on before the clamps. */
export const locateSteps = ({ job, pieces }: Mounted, fmt: Formatter): Step[] =>
  pieces
    .filter(
      ({ item }) =>
        !isClamp(item) &&
        !isCounterweight(item) &&
        item.kind !== 'packing' &&
        item.kind !== 'fixture' &&
        !isShelf(item),
    )
    .map((piece) =>
      step(`locate:${piece.item.id}`, 'locate', titleOf(piece.item), {
        facts: [
          ...facts(['Place', placeWords(piece, fmt)], ['Mass', fmt.mass(piece.mass)]),
          ...boltFacts(piece, fmt, spannerOf(job)),
        ],
        does: [
          piece.item.kind === 'stop'
            ? 'Hard against the edge of the part, then tighten.'
            : piece.item.kind === 'dowel'
              ? 'Seat it right home.'
              : piece.item.kind === 'twin'
                ? 'Turn it as drawn, faces clean, nip all its bolts, then tighten them to the torque.'
                : 'Put it in its place and tighten.',
        ],
        warns: boltWarns(piece),
        lit: [piece.item.id],
      }),
    )

export function holdSteps(mounted: Mounted, fmt: Formatter): Step[] {
  const { job, pieces } = mounted
  const clamps = inOrder(pieces.filter(({ item }) => isClamp(item)))
  return clamps.map((piece, i) =>
    step(`hold:${piece.item.id}`, 'hold', `${titleOf(piece.item)}, ${i + 1} of ${clamps.length}`, {
      facts: [
        ...facts(['Place', placeWords(piece, fmt)]),
        ...(piece.item.kind === 'clamp' ? clampFacts(piece.item, standOf(mounted, piece).seen, fmt) : []),
        ...boltFacts(piece, fmt, spannerOf(job)),
      ],
      does: [
        ...(piece.item.kind === 'clamp' ? clampDoes(piece.item) : []),
        i === 0 && clamps.length > 1
          ? 'Nip all of them first, then tighten in this order.'
          : 'Tighten to the torque.',
      ],
      warns: [
        ...boltWarns(piece),
        ...(i === clamps.length - 1 ? ['Indicate once more: tightening moves the part.'] : []),
      ],
      lit: [piece.item.id],
    }),
  )
}

function clampFacts(clamp: Clamp, { toe }: MountedPiece, fmt: Formatter) {
  const { length, width, thickness, boltFrom } = clamp.strap
  const heel = clamp.heel ? (clamp.heel.height ?? null) : null
  const high = heel === 'suit' ? (toe?.heel ?? null) : heel
  return facts(
    ['Strap', sizesText(fmt, [length, width, thickness])],
    ['Bolt to toe', fmt.length(boltFrom)],
    ['Heel', clamp.heel ? `${clamp.heel.kind}${high === null ? '' : `, ${fmt.length(high)} high`}` : 'none'],
  )
}

const clampDoes = (clamp: Clamp): string[] => [
  ...(clamp.packing ? ['Packing under the part, right below the toe.'] : []),
  'Strap level or a little high at the heel, bolt near the part.',
]

export const weightSteps = ({ job, pieces }: Mounted, fmt: Formatter): Step[] =>
  inOrder(pieces.filter(({ item }) => isCounterweight(item))).map((piece) =>
    step(`weight:${piece.item.id}`, 'weight', titleOf(piece.item), {
      facts: [
        ...facts(
          ['Place', placeWords(piece, fmt)],
          ['Stack, bottom first', piece.item.kind === 'weight' ? stackWords(piece.item, job.stock) : null],
          ['Mass, all of it', fmt.mass(piece.mass)],
        ),
        ...boltFacts(piece, fmt, spannerOf(job)),
      ],
      does: [
        'Bottom piece first, each flat on the one below.',
        'Measure the radius from the axis, then tighten.',
      ],
      warns: [...boltWarns(piece), 'A weight that lets go flies off: nut wholly on its thread.'],
      lit: [piece.item.id],
    }),
  )

const stackWords = ({ stack }: Weight, stock: Mounted['job']['stock']): string =>
  stack.map(({ stock: id, count }) => `${count} × ${stock.find((s) => s.id === id)?.name ?? id}`).join(', ')

const titleOf = (item: Hardware): string => `${capital(KIND_WORDS[item.kind])} ${item.id}`
