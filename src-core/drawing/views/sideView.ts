/**
 * The set-up from the operator's side, z to the right: plate and part cut by the upright plane through the axis,
 * clamps, packing and weights whole. Dimensions along the axis stand above, levels beside.
 */
import { edgesBox, ringEdges } from '../../geometry/edges.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import type { Job } from '../../job/schema.ts'
import { noteCandidates } from './callouts.ts'
import { dimensionLabel } from './dimension.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Label } from '../placing/placeLabels.ts'
import type { Candidate } from '../placing/option.ts'
import { showsTee } from './section.ts'
import { crossSlide, sideLines, type SideLines } from './sideLines.ts'
import { textWidth } from '../text/textWidth.ts'
import { bedIsShown, bedRadius, dimensionText, type View, type ViewInput } from './view.ts'

/** Levels of dimension lines above the plate, mm from its rim. */
const LEVELS = [6, 11.2, 16.4, 22, 28]
/** Below the bed line: its ticks, a value and the space round it, mm. */
const UNDER_BED = 7.9
const BESIDE = [7, 11, 15, 20, 26]

export function sideView(input: ViewInput): View {
  const lines = sideLines(input)
  return {
    lines: lines.primitives,
    bodies: lines.bodies.map((ring) => [ring]),
    marks: [],
    labels: [...alongAxis(input, lines), ...levels(input, lines), ...notes(input, lines)],
  }
}

/** Plate, packing, part and all that stands out from the plate's face. */
function alongAxis(
  { job, mounted, analysis, scale, choices }: ViewInput,
  { map, back, front }: SideLines,
): Label[] {
  const rim = job.plate.diameter / 2
  const { ground, seat } = mounted
  const rows = [
    { id: 'sub-plate', z0: 0, z1: ground },
    { id: 'packing', z0: ground, z1: seat },
    { id: 'part-depth', z0: seat, z1: mounted.partFront },
    { id: 'plate-thickness', z0: back, z1: 0 },
    // Where nothing stands out further than a part without packing, its depth says it all.
    ...(seat > 0 || front > mounted.partFront ? [{ id: 'overhang', z0: 0, z1: front }] : []),
  ]
  const underBed = bedIsShown(job, analysis) ? [(bedRadius(job).radius - rim) * scale + UNDER_BED] : []
  const end = (z: number, side: 1 | -1): Point =>
    map(z, z <= 0 ? side * rim : (outermost(mounted, z, side) ?? side * rim))
  return rows.flatMap(({ id, z0, z1 }): Label[] => {
    const value = z1 - z0
    if (value < TOLERANCE.height) return []
    const above = id === 'overhang' ? LEVELS.slice(1) : LEVELS
    const on = (side: 1 | -1, heights: readonly number[]) => {
      const from = end(z0, side)
      const levels = heights.map((d) => map(0, side * rim).y + side * d - from.y)
      const spec = {
        id,
        from,
        to: end(z1, side),
        direction: 0,
        value,
        scale,
        text: dimensionText(job, value),
      }
      return dimensionLabel(spec, levels, choices)
    }
    // Under the plate where there is no room above.
    const below = on(-1, [...above.map((d) => d + 2), ...underBed]).flatMap((l) =>
      l.candidates.map((c) => ({ ...c, cost: c.cost + 15 })),
    )
    return on(1, above).map((l) => ({ ...l, candidates: [...l.candidates, ...below] }))
  })
}

/** y of what ends at a height z and reaches furthest up (1) or down (-1), part before pieces; null where nothing does. */
function outermost(mounted: ViewInput['mounted'], z: number, side: 1 | -1): number | null {
  const ends = (a: number, b: number) => [a, b].some((e) => Math.abs(e - z) < TOLERANCE.height)
  const reach = (outline: Ring) => {
    const { y0, y1 } = edgesBox(ringEdges(outline))
    return side === 1 ? y1 : y0
  }
  const parts = mounted.bodies
    .filter((b) => b.body.effect === 'adds' && ends(b.z0, b.z1))
    .flatMap((b) => b.regions.map((r) => reach(r.outline)))
  const pieces = mounted.pieces.filter((p) => ends(p.z0, p.z1)).map((p) => reach(p.footprint))
  const from = parts.length > 0 ? parts : pieces
  if (from.length === 0) return null
  return side === 1 ? Math.max(...from) : Math.min(...from)
}

/** Plate diameter at the left, cross-slide at the right, and the bar's reach along the cross-slide. */
function levels({ job, scale, choices }: ViewInput, { map, back, front, slide }: SideLines): Label[] {
  const { diameter } = job.plate
  const out: Label[] = []
  const plate = {
    id: 'plate-diameter',
    from: map(back, -diameter / 2),
    to: map(back, diameter / 2),
    direction: Math.PI / 2,
    value: diameter,
    scale,
    text: `Ø${dimensionText(job, diameter)}`,
  }
  out.push(...dimensionLabel(plate, BESIDE, choices))
  if (!slide.drawn) return out
  const start = slide.from ?? 0
  const right = Math.max(map(front, 0).x, map(start, 0).x)
  const foot = map(start, -slide.level)
  const axis = map(start, 0)
  const height = {
    id: 'cross-slide',
    from: foot,
    to: axis,
    direction: Math.PI / 2,
    value: slide.level,
    scale,
    text: dimensionText(job, slide.level),
    clearFrom: right - foot.x + 10,
    clearTo: map(front, 0).x + 10 - axis.x,
  }
  out.push(
    ...dimensionLabel(
      height,
      [4, 8, 12, 16].map((d) => foot.x - right - d),
      choices,
    ),
  )
  if (slide.from !== null && slide.from > slide.tip) {
    const reach = slide.from - slide.tip
    const bar = {
      id: 'bar-reach',
      from: map(slide.tip, 0),
      to: foot,
      direction: 0,
      value: reach,
      scale,
      text: dimensionText(job, reach),
    }
    out.push(
      ...dimensionLabel(
        bar,
        [4, 8, 12, 16, 20, 24, -8, -13, 30, 36, 42, 48].map((d) => foot.y - map(0, 0).y + d),
        choices,
      ),
    )
  }
  return out
}

/** Names of bed and cross-slide, near their lines. */
function notes(input: ViewInput, { map, back, front, slide }: SideLines): Label[] {
  const { job, analysis } = input
  const bed = bedRadius(job)
  const shown = bedIsShown(job, analysis)
  const names: Label[] = []
  if (slide.drawn) {
    const words =
      slide.from === null ? ['cross-slide level;', 'bar reach not given'] : ['cross-slide,', 'tool at depth']
    const from = map(slide.from ?? 0, -slide.level)
    names.push({
      id: 'cross-slide name',
      words: 'the name of the cross-slide, the level under the section',
      candidates: [...under(words, from.x, from.y, 0), ...under([words.join(' ')], from.x, from.y, 1)],
    })
  }
  if (shown) {
    const spots = [map(back, 0).x, map(front, 0).x - 12].flatMap((x) =>
      under([bed.name], x, map(0, -bed.radius).y - 1, 0),
    )
    names.push({ id: 'side bed name', optional: true, candidates: spots })
  }
  return names
}

/** Candidates for lines of text below a level, beginning about x. */
function under(lines: readonly string[], x: number, y: number, extra: number): Candidate[] {
  const half = Math.max(...lines.map((w) => textWidth(w, LETTERING.note))) / 2
  const places = [4, 6, 8, 11, 15, 20, 27, 35].flatMap((down) =>
    [0, -8, 8, -16, 16, -26, 26, -38, -50].map((along) => ({
      at: { x: x + half + along, y: y - down },
      cost: extra + down / 2 + Math.abs(along) / 4,
    })),
  )
  return noteCandidates({ lines, height: LETTERING.note, target: null, places })
}

/** What is near the section but not in it, in words. */
export function sideAsides(input: ViewInput): string[] {
  const { job } = input
  const tee = 'Tee slots drawn in the proportions of ISO 299; the job does not hold their depth.'
  return [...slideAside(job, crossSlide(input)), ...(showsTee(job.plate) ? [tee] : [])]
}

/** Where the cross-slide is, if it is not in the picture. */
function slideAside(job: Job, { from, tip, level, drawn }: SideLines['slide']): string[] {
  if (drawn) return []
  const at = (mm: number) => dimensionText(job, mm)
  const below = `${at(level)} below the axis`
  if (from === null) return [`Cross-slide ${below}, not drawn; the reach of its bar is not given.`]
  return [`Cross-slide from ${at(from)} out, ${below}, not drawn (bar ${at(from - tip)}).`]
}
