/** Edits of what is cut in a setup. */
import type { Draft } from 'mutative'
import type { Bore, Cut, CutKind, Job } from '../../../src-core/job/schema.ts'
import type { Dial } from '../../../src-core/passes/dial.ts'
import { convert, inches } from '../../../src-core/units/convert.ts'
import type { DisplayUnits } from '../../../src-core/units/format.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { editSetup, freshId } from './edit.ts'

/**
 * Figures to start from, to be put right: careful ones for high-speed steel, round in the units shown. `drill` opens a bore:
 * it lets a boring bar in, for a larger one leans on the clamps for nothing. Common practice. mm, m/min, mm/rev.
 */
const USUAL = {
  mm: { speed: 20, ream: 6, feed: 0.1, depth: 1, fine: 0.1, wide: 20, drill: { most: 16, step: 1 } },
  in: {
    speed: convert(65, 'ft/minute', 'm/minute'),
    ream: convert(20, 'ft/minute', 'm/minute'),
    feed: inches(0.004),
    depth: inches(0.04),
    fine: inches(0.004),
    wide: inches(3 / 4),
    drill: { most: inches(5 / 8), step: inches(1 / 16) },
  },
} as const
/** Of the bore, that a drill opens at most. */
const DRILL_SHARE = 0.8

function openingDrill(diameter: number, { most, step }: { most: number; step: number }): number {
  const size = Math.max(1, Math.floor((diameter * DRILL_SHARE) / step + 1e-9)) * step
  return Math.min(most, size)
}

/** A cut of a kind in a bore, or about the axis where it is of such a kind; mm round the bore on the axis. */
function newCut(
  kind: CutKind,
  id: string,
  bore: Pick<Bore, 'id' | 'diameter'> | null,
  units: DisplayUnits,
): Draft<Cut> | null {
  const inner = bore?.diameter ?? 0
  const { speed, ream, feed, depth, fine, wide, drill } = USUAL[units]
  const common = { id, tool: 'HSS', speed, feed, interrupted: false } as const
  switch (kind) {
    case 'bore':
      return bore && { ...common, kind, bore: bore.id, depth }
    case 'drill':
      return bore && { ...common, kind, bore: bore.id, diameter: openingDrill(bore.diameter, drill) }
    case 'ream':
      return bore && { ...common, kind, bore: bore.id, depth: fine, speed: ream }
    case 'face':
      return { ...common, kind, from: inner / 2, to: inner / 2 + wide, depth }
    case 'turn':
      return { ...common, kind, start: inner + 2 * wide, diameter: inner + 2 * wide - 2 * depth, depth }
    case 'recess':
      return { ...common, kind, start: inner, diameter: inner + wide / 2, depth }
  }
}

/** What brings a bore to its finish: boring, after a drill where it is solid yet; null where it is finished. */
export function cutsToFinish(
  bore: Pick<Bore, 'id' | 'diameter' | 'start'>,
  units: DisplayUnits,
): Draft<Cut>[] | null {
  if (bore.start >= bore.diameter) return null
  const kinds: readonly CutKind[] = bore.start > 0 ? ['bore'] : ['drill', 'bore']
  return kinds.flatMap((kind, i) => newCut(kind, `cut${i + 1}`, bore, units) ?? [])
}

/** The setup with one more cut, in its centred bore or the first there is; null where the part has no bore for it. */
export function addCut(job: Job, setupId: string, kind: CutKind): { job: Job; id: string } | null {
  const setup = findSetup(job, setupId)
  const { centre } = setup
  const { bores } = job.part
  const bore = ('bore' in centre ? bores.find((b) => b.id === centre.bore) : undefined) ?? bores[0] ?? null
  const id = freshId('cut', setup.cuts ?? [])
  const cut = newCut(kind, id, bore, job.displayUnits)
  if (!cut) return null
  return {
    id,
    job: editSetup(job, setupId, (s) => {
      const cuts = s.cuts ?? []
      // A drill opens its bore before anything else is done in it.
      const first = cuts.findIndex((c) => cut.kind === 'drill' && 'bore' in c && c.bore === cut.bore)
      s.cuts = first < 0 ? [...cuts, cut] : [...cuts.slice(0, first), cut, ...cuts.slice(first)]
    }),
  }
}

export const removeCut = (job: Job, setupId: string, id: string): Job =>
  editSetup(job, setupId, (s) => void (s.cuts = withoutCuts(s.cuts, (c) => c.id === id)))

type CutDraft = Draft<Cut>

/** The cuts that are left; without any it is not known what is cut, as nobody has said that nothing is. */
export function withoutCuts(
  cuts: readonly CutDraft[] | null | undefined,
  gone: (cut: CutDraft) => boolean,
): CutDraft[] | null {
  const left = (cuts ?? []).filter((c) => !gone(c))
  return left.length > 0 ? left : null
}

/** The same dial for every boring cut of a setup: they are made with one cross-slide. */
export const dialOfBoring = (job: Job, setupId: string, dial: Dial | null): Job =>
  editSetup(job, setupId, (s) => {
    for (const cut of s.cuts ?? []) if (cut.kind === 'bore') cut.dial = dial
  })

type Of<K extends CutKind> = Partial<Omit<Extract<Cut, { kind: K }>, 'kind' | 'id'>>
/** Fields of a cut of any kind. */
export type CutChange = Of<'bore'> & Of<'drill'> & Of<'face'> & Of<'turn'> & Of<'recess'>

export const changeCut = (job: Job, setupId: string, id: string, change: CutChange): Job =>
  editSetup(job, setupId, (s) => {
    const cut = s.cuts?.find((c) => c.id === id)
    if (cut) Object.assign(cut, change)
  })
