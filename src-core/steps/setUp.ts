/** Steps from the bench to the part on its mark. */
import type { Analysis } from '../analysis/result.ts'
import { holderWord } from '../hardware/words.ts'
import { isClamp } from '../job/schema.ts'
import { centrePoint } from '../mounting/cutAway.ts'
import type { Mounted } from '../mounting/types.ts'
import { isHeavySide } from '../unbalance/static.ts'
import { clockPosition, type Formatter } from '../units/format.ts'
import { mountedFetchList } from './fetchList.ts'
import { facts, step, type Step } from './step.ts'

export function fetchStep(mounted: Mounted): Step {
  const list = mountedFetchList(mounted)
  return step('fetch', 'fetch', 'Fetch', {
    does: list.map((item) => (item.count > 1 ? `${item.count} × ${item.words}` : item.words)),
    lit: ['part', 'plate'],
  })
}

export function plateStep({ job }: Mounted, fmt: Formatter): Step {
  const { plate } = job
  return step('plate', 'plate', 'Mount and clean the plate', {
    facts: facts(
      ['Plate', plate.name],
      ['Diameter', fmt.length(plate.diameter)],
      ['Mass', fmt.mass(plate.mass)],
    ),
    does: [
      'Isolate the drive.',
      'Clean nose, register and face; no swarf, no burr.',
      'Put the plate on and seat it right home.',
    ],
    warns: ['Board over the bed before you lift. Take tackle or a second pair of hands for what is heavy.'],
    lit: ['plate'],
  })
}

export function packingStep({ setup, pieces }: Mounted, fmt: Formatter): Step[] {
  const loose = pieces.filter((p) => p.item.kind === 'packing')
  if (setup.packing <= 0 && loose.length === 0) return []
  return [
    step('packing', 'packing', 'Packing under the part', {
      facts: facts(
        ['Height', fmt.length(setup.packing)],
        ['Pieces', loose.length > 0 ? loose.map((p) => p.item.id).join(', ') : null],
      ),
      does: [
        'Measure every piece: all of one height.',
        'Lay them where the clamps will press, and clear of the bore.',
      ],
      warns: ['Packing that the tool will reach is cut with the part: keep it outside the bore.'],
      lit: loose.map((p) => p.item.id),
    }),
  ]
}

export function partStep(mounted: Mounted, a: Analysis, fmt: Formatter): Step {
  const { job, setup, pieces } = mounted
  const bore = 'bore' in setup.centre ? setup.centre.bore : null
  const centre = centrePoint(job.part, setup)
  const point = `x ${fmt.length(centre.x)}, y ${fmt.length(centre.y)}`
  const heavy = a.unbalance.static_angle_deg
  const { loading_torque_N_m: loading } = a.by_hand
  return step('part', 'part', 'Part on its mark', {
    facts: facts(
      ['Part', job.part.name],
      ['Mass', fmt.mass(a.part.mass_kg)],
      ['On the axis', bore ? `bore ${bore} (${point})` : point],
      ['Turned', fmt.angle(setup.turn)],
    ),
    does: [
      bore
        ? `Bring bore ${bore} to the axis: to a centre in its mark, or by indicator in the hole.`
        : 'Bring the marked point to the axis: to a centre, or by indicator.',
      'Set the angle by an edge of the part.',
      `Nip two ${holderWord(pieces.map((p) => p.item).filter(isClamp))}s, indicate again.`,
    ],
    warns: [
      `Chock the plate while it is loaded: without its weights it swings down with up to ${fmt.torque(loading)}.`,
      isHeavySide(a.unbalance.static_g_mm)
        ? `With all on, the heavy side is toward ${clockPosition(heavy)} as drawn.`
        : 'With all on, no side is heavy to speak of.',
    ],
    lit: ['part'],
  })
}
