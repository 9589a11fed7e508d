import type { Point } from '../../geometry/types.ts'
import type { Hardware, Weight } from '../../job/schema.ts'
import { KIND_WORDS } from '../../hardware/words.ts'
import { called } from '../../findings/finding.ts'
import type { MountedPiece } from '../../mounting/types.ts'
import { changeSetup, withoutHardware } from '../../planner/apply.ts'
import { massOfSolids } from '../../unbalance/assembly.ts'
import { changeBy, type Bench, type Cause } from './cause.ts'

/** Nuts, pieces and weights that are on the plate and not in the job, or the other way round. */
export function forgottenCauses(bench: Bench): Cause[] {
  return bench.mounted.pieces.flatMap((piece) => [
    ...nutCauses(bench, piece),
    ...pieceCause(bench, piece.item),
    ...(piece.item.kind === 'weight' ? countCauses(bench, piece.item) : []),
  ])
}

/** Nut and washer of each of a piece's studs: one set too many, or one missing. */
function nutCauses({ fmt }: Bench, piece: MountedPiece): Cause[] {
  const nuts = massOfSolids(piece.solids.filter((s) => s.role === 'nut' || s.role === 'washer'))
  if (!(nuts.m > 0)) return []
  const one = 1000 / Math.max(1, piece.fastenings.length)
  const change = (sign: 1 | -1): Point => ({ x: sign * one * nuts.x, y: sign * one * nuts.y })
  const each = fmt.mass((nuts.m * one) / 1000)
  const name = called(piece.item)
  return [
    {
      cause: 'nut',
      item: piece.item.id,
      message: `A nut and washer too many may be on ${name}: ${each} there. Look at its stud.`,
      change: change(1),
      assumed: 0,
    },
    {
      cause: 'nut',
      item: piece.item.id,
      message: `A nut and washer (${each}) may be missing on ${name}. Look at its stud, and tighten it.`,
      change: change(-1),
      assumed: 0,
    },
  ]
}

function pieceCause(bench: Bench, item: Hardware): Cause[] {
  return [
    {
      cause: 'piece',
      item: item.id,
      message: `The ${KIND_WORDS[item.kind]} ${called(item)} may not be on the plate, or not where the job has it. Look.`,
      change: changeBy(bench, withoutHardware(bench.job, bench.setupId, [item.id])),
      assumed: 0,
    },
  ]
}

/** One piece of a stack more or fewer. */
function countCauses(bench: Bench, weight: Weight): Cause[] {
  const name = (id: string) => bench.job.stock.find((s) => s.id === id)?.name ?? id
  return weight.stack.flatMap((layer, index) =>
    ([1, -1] as const).flatMap((step): Cause[] => {
      const count = layer.count + step
      if (count < 1) return []
      const stack = weight.stack.map((l, i) => (i === index ? { ...l, count } : l))
      return [
        {
          cause: 'piece',
          item: weight.id,
          message: `The stack of ${called(weight)} may have ${count} × ${name(layer.stock)} instead of ${layer.count}. Count them.`,
          change: changeBy(bench, withPiece(bench, { ...weight, stack })),
          assumed: 0,
        },
      ]
    }),
  )
}

const withPiece = ({ job, setupId }: Bench, piece: Weight): Bench['job'] =>
  changeSetup(job, setupId, (setup) => ({
    ...setup,
    hardware: setup.hardware.map((h) => (h.id === piece.id ? piece : h)),
  }))
