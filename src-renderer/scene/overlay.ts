/** What was found out, drawn over the work: heavy side, centres of mass, the tightest corner, handles and guides. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { Clearance } from '../../src-core/clearance/clearance.ts'
import type { Verdict } from '../../src-core/verdict/speeds.ts'
import { polar } from '../../src-core/geometry/angles.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import { handles } from '../editor/hitTest.ts'
import type { Guide, Target } from '../editor/target.ts'
import { describeGuide } from './guide.ts'
import type { SceneItem } from './items.ts'
import { nothingHeavy } from './heavy.ts'
import { offToes } from './offToes.ts'

export interface OverlayState {
  readonly selection: Target | null
  readonly guide: Guide | null
  readonly highlight: {
    readonly item: string
    readonly at: { readonly x: number; readonly y: number } | null
  } | null
  /** While the spindle is turned by hand only what belongs to that is shown. */
  readonly turning: boolean
  length(mm: number): string
}

export function describeOverlay(
  mounted: Mounted,
  analysis: Analysis | null,
  state: OverlayState,
): SceneItem[] {
  const items: SceneItem[] = [
    { id: 'axis', layer: 'overlay', role: 'axis', kind: 'sign', sign: 'axis', at: { x: 0, y: 0 } },
  ]
  if (analysis) items.push(...massItems(mounted, analysis), ...clearanceItems(mounted, analysis, state))
  if (state.turning) return items
  for (const { target, at } of handles(mounted, state.selection))
    items.push({
      id: `handle:${target.kind}`,
      layer: 'overlay',
      role: 'handle',
      kind: 'sign',
      sign: target.kind === 'turn-handle' ? 'turn' : 'nose',
      at,
      direction: mounted.setup.turn,
    })
  items.push(...toeItems(mounted, state))
  const place = state.highlight?.at ?? pieceAt(mounted, state.highlight?.item)
  if (place)
    items.push({
      id: 'highlight',
      layer: 'overlay',
      role: 'highlight',
      kind: 'sign',
      sign: 'ring',
      at: place,
    })
  items.push(...describeGuide(state.guide, 34))
  return items
}

const pieceAt = (mounted: Mounted, id: string | undefined) =>
  mounted.pieces.find((p) => p.item.id === id)?.at ?? null

function massItems(mounted: Mounted, analysis: Analysis): SceneItem[] {
  const items: SceneItem[] = []
  const part = analysis.terms.find((t) => t.item === 'part')
  if (part)
    items.push({
      id: 'part-centre',
      layer: 'overlay',
      role: 'part-centre',
      kind: 'sign',
      sign: 'dot',
      at: part.centre_mm,
    })
  const [x, y] = analysis.assembly.centroid_mm
  items.push({
    id: 'centre-of-mass',
    layer: 'overlay',
    role: 'centre-of-mass',
    kind: 'sign',
    sign: 'centre-of-mass',
    at: { x, y },
  })
  if (nothingHeavy(analysis)) return items
  const rim = mounted.job.plate.diameter / 2
  const angle = analysis.unbalance.static_angle_deg
  items.push({
    id: 'heavy',
    layer: 'overlay',
    role: 'heavy',
    kind: 'arrow',
    from: polar(rim * 0.16, angle),
    to: polar(rim * arrowReach(analysis, mounted.setup.speed), angle),
    verdict: analysis.verdict.state,
  })
  return items
}

/** Share of the plate's radius at which the heavy side's arrow ends without any pull, and with one without end. */
const ARROW = { least: 0.3, most: 0.92, half: 0.15 } as const

/**
 * Where the arrow ends, as a share of the plate's radius: it grows with the pull at the chosen speed (the slowest where
 * none is chosen), as a share of the weight that turns, and is half grown at the share `half`.
 */
export function arrowReach(analysis: Pick<Analysis, 'speeds'>, speed: number | null): number {
  const row = analysis.speeds.find((s) => s.rpm === speed) ?? analysis.speeds[0]
  const share = row ? Math.abs(row.weight_share) : ARROW.half
  return ARROW.least + ((ARROW.most - ARROW.least) * share) / (share + ARROW.half)
}

function clearanceItems(mounted: Mounted, analysis: Analysis, state: OverlayState): SceneItem[] {
  const all = tightestCorners(analysis)
  return all
    .slice(0, state.turning ? undefined : 1)
    .flatMap((tightest, i) => cornerItems(tightest, i === 0 ? 'corner' : `corner:${tightest.against}`, state))
}

/** The tightest corner for each thing that it could foul, tightest first. */
export function tightestCorners(analysis: Analysis): Clearance[] {
  // The plate's own rim is a circle: no corner of it is closer than another.
  const turning = analysis.clearances.filter((c) => c.item !== 'plate')
  return turning.filter((c, i) => turning.findIndex((d) => d.against === c.against) === i)
}

function cornerItems(tightest: Clearance, id: string, state: OverlayState): SceneItem[] {
  const verdict: Verdict = tightest.clearance_mm < 0 ? 'stop' : tightest.clearance_mm < 3 ? 'caution' : 'go'
  const items: SceneItem[] = [
    {
      id,
      layer: 'overlay',
      role: 'clearance',
      kind: 'sign',
      sign: 'corner',
      at: tightest.corner,
      verdict,
    },
  ]
  if (state.turning || verdict !== 'go')
    items.push({
      id: `${id}-text`,
      layer: 'overlay',
      role: 'guide-text',
      kind: 'text',
      at: tightest.corner,
      offset: { x: 0, y: -18 },
      align: 'centre',
      text:
        tightest.clearance_mm < 0
          ? `fouls ${tightest.against} by ${state.length(-tightest.clearance_mm)}`
          : `${state.length(tightest.clearance_mm)} to ${tightest.against}`,
    })
  return items
}

/** What is wrong under each toe that does not lie wholly on the part. */
function toeItems(mounted: Mounted, state: OverlayState): SceneItem[] {
  return mounted.pieces.flatMap((piece): SceneItem[] => {
    const { toe, item } = piece
    const off = offToes(mounted).get(item.id)
    if (!toe || !off) return []
    const text =
      off.short !== null ? `${item.id} ${state.length(off.short)} short` : `${item.id} over ${off.over}`
    return [
      {
        id: `toe-off:${item.id}`,
        layer: 'overlay',
        role: 'fault-text',
        kind: 'text',
        at: toe.at,
        offset: { x: 0, y: -20 },
        align: 'centre',
        text,
      },
    ]
  })
}
