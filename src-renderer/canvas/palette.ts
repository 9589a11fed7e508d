/** How each role looks, in light and dark: a cast-iron face, a blued workpiece, black clamps, brass weights. */
import type { Verdict } from '../../src-core/verdict/speeds.ts'
import type { Role } from '../scene/items.ts'

export interface Paint {
  readonly fill?: string
  readonly stroke?: string
  /** Pixels. */
  readonly width?: number
  readonly dash?: readonly number[]
  /** A broader line under the stroke, so that it shows on any ground. */
  readonly casing?: string
  /** Hard shadow, pixels down and right; lifts a thing off the face. */
  readonly lift?: number
}

export interface Palette {
  readonly roles: Readonly<Record<Role, Paint>>
  readonly verdict: Readonly<Record<Verdict, string>>
  readonly shadow: string
  readonly sheen: { readonly light: string; readonly dark: string; readonly ring: string }
  readonly select: string
  readonly hover: string
  readonly text: {
    readonly label: string
    readonly tag: string
    readonly tagBack: string
    readonly machine: string
    readonly note: string
    readonly noteBack: string
  }
}

const DASH = { hidden: [5, 4], phantom: [14, 4, 3, 4, 3, 4], centre: [12, 4, 3, 4], fine: [2, 4] } as const

function rolesOf(c: {
  bed: string
  bedEdge: string
  swing: string
  cross: string
  crossFill: string
  plate: string
  plateEdge: string
  recess: string
  recessEdge: string
  part: string
  partEdge: string
  pocket: string
  scribe: string
  packing: string
  packingEdge: string
  packingHidden: string
  clamp: string
  clampEdge: string
  brass: string
  brassEdge: string
  off: string
  heel: string
  nut: string
  bolt: string
  boltEdge: string
  axis: string
  mark: string
  guide: string
  ground: string
}): Record<Role, Paint> {
  const plain = {}
  return {
    bed: { fill: c.bed, stroke: c.bedEdge, width: 1.5 },
    swing: { stroke: c.swing, width: 1, dash: DASH.centre },
    turning: { stroke: c.swing, width: 2 },
    'cross-slide': { stroke: c.cross, width: 1, dash: DASH.phantom },
    'cross-slide-profile': { fill: c.crossFill, stroke: c.cross, width: 1.5, dash: DASH.phantom },
    swept: { stroke: c.guide, width: 1.5, dash: DASH.fine },
    plate: { fill: c.plate, stroke: c.plateEdge, width: 1.5 },
    slot: { fill: c.recess, stroke: c.recessEdge, width: 1 },
    'plate-hole': { fill: c.recess, stroke: c.recessEdge, width: 1 },
    part: { fill: c.part, stroke: c.partEdge, width: 1.75, lift: 3 },
    pocket: { fill: c.pocket, stroke: c.partEdge, width: 1.25 },
    'bore-open': { fill: c.recess, stroke: c.scribe, width: 1.25 },
    'bore-to-cut': { stroke: c.scribe, width: 2 },
    'bore-start': { stroke: c.scribe, width: 1 },
    'bore-uncut': { stroke: c.scribe, width: 1.25, dash: DASH.hidden },
    packing: { fill: c.packing, stroke: c.packingEdge, width: 1 },
    'packing-hidden': { stroke: c.packingHidden, width: 1, dash: DASH.hidden },
    clamp: { fill: c.clamp, stroke: c.clampEdge, width: 1.25, lift: 5 },
    // Its toe presses on nothing.
    'strap-off': { fill: c.off, stroke: c.clampEdge, width: 1.5, lift: 5 },
    heel: { fill: c.heel, stroke: c.clampEdge, width: 1, lift: 2 },
    nut: { fill: c.nut, stroke: c.boltEdge, width: 1 },
    fixture: { fill: c.packing, stroke: c.packingEdge, width: 1.5, lift: 3 },
    bracket: { fill: c.clamp, stroke: c.clampEdge, width: 1.25, lift: 4 },
    other: { fill: c.clamp, stroke: c.clampEdge, width: 1.25, lift: 4 },
    counterweight: { fill: c.brass, stroke: c.brassEdge, width: 1.5, lift: 4 },
    bolt: { fill: c.bolt, stroke: c.boltEdge, width: 1 },
    'strap-line': { stroke: c.boltEdge, width: 1, dash: DASH.fine },
    axis: { stroke: c.axis, width: 1.25 },
    heavy: plain,
    'centre-of-mass': { stroke: c.mark, fill: c.ground, width: 1.5 },
    'part-centre': { stroke: c.scribe, fill: c.partEdge, width: 1.5 },
    label: plain,
    tag: plain,
    'machine-label': plain,
    clearance: { width: 2 },
    highlight: { stroke: c.guide, width: 3 },
    handle: { fill: c.guide, stroke: c.ground, width: 1.5 },
    guide: { stroke: c.guide, width: 1.5, casing: c.ground, dash: DASH.hidden },
    'guide-text': plain,
    'fault-text': plain,
    photograph: plain,
    // Colours of six digits; two more let a photograph show through.
    'part-traced': { fill: `${c.part}38`, stroke: c.partEdge, width: 1.75, casing: c.ground },
    'pocket-traced': { fill: `${c.pocket}48`, stroke: c.partEdge, width: 1.25, casing: c.ground },
    'draw-ring': { stroke: c.guide, width: 2.5, casing: c.ground },
    'draw-preview': { stroke: c.guide, width: 2.5, casing: c.ground },
    'draw-vertex': { fill: c.ground, stroke: c.guide, width: 2 },
    'draw-vertex-chosen': { fill: c.guide, stroke: c.ground, width: 2 },
    'draw-edge-chosen': { stroke: c.guide, width: 6, casing: c.ground },
    'draw-middle': { fill: c.ground, stroke: c.guide, width: 1.5 },
    'draw-fault': { width: 2 },
  }
}

export const LIGHT: Palette = {
  roles: rolesOf({
    bed: '#c3c2bb', bedEdge: '#7f817c', swing: '#8b8d88', cross: '#7a6d8d', crossFill: 'rgba(120,110,140,0.35)',
    plate: '#d3d4d0', plateEdge: '#7e8382', recess: '#4c5152', recessEdge: '#2d3132',
    part: '#33618f', partEdge: '#132a42', pocket: '#264a6d', scribe: '#f1f6fb',
    packing: '#a9adac', packingEdge: '#6c7171', packingHidden: 'rgba(225,234,255,0.6)',
    clamp: '#4a5053', clampEdge: '#1d2122', off: '#c2281d', heel: '#6b7175', nut: '#b9bdbc', brass: '#d2a955', brassEdge: '#70521a', bolt: '#e3e4e0', boltEdge: '#25292a',
    axis: '#1c2021', mark: '#1c2021', guide: '#14609f', ground: '#ffffff',
  }),
  verdict: { go: '#1b7a4b', caution: '#a96400', 'not-judged': '#6941b0', stop: '#c2281d' },
  shadow: 'rgba(30,34,36,0.28)',
  sheen: { light: 'rgba(255,255,255,0.55)', dark: 'rgba(70,76,78,0.16)', ring: 'rgba(60,66,68,0.09)' },
  select: '#14609f',
  hover: '#5b93c9',
  text: { label: '#3b4041', tag: '#ffffff', tagBack: 'rgba(20,24,25,0.78)', machine: '#55595a', note: '#ffffff', noteBack: 'rgba(18,28,46,0.92)' },
} // prettier-ignore

export const DARK: Palette = {
  roles: rolesOf({
    bed: '#2c3235', bedEdge: '#5d676b', swing: '#5f696d', cross: '#85799c', crossFill: 'rgba(150,138,175,0.30)',
    plate: '#454c4f', plateEdge: '#828b8f', recess: '#101415', recessEdge: '#6b7478',
    part: '#3d72a6', partEdge: '#bcd6ee', pocket: '#2b5178', scribe: '#eef5fb',
    packing: '#6d7578', packingEdge: '#9aa3a6', packingHidden: 'rgba(205,220,255,0.55)',
    clamp: '#23282a', clampEdge: '#a3acaf', off: '#b3342a', heel: '#3d4447', nut: '#9aa2a5', brass: '#c69a45', brassEdge: '#f1d59a', bolt: '#c9cfd1', boltEdge: '#0e1112',
    axis: '#f4f2ec', mark: '#f4f2ec', guide: '#a6c6ea', ground: '#15191b',
  }),
  verdict: { go: '#5fcf95', caution: '#f0b341', 'not-judged': '#c4a6ff', stop: '#ff7a6b' },
  shadow: 'rgba(0,0,0,0.5)',
  sheen: { light: 'rgba(255,255,255,0.13)', dark: 'rgba(0,0,0,0.22)', ring: 'rgba(0,0,0,0.16)' },
  select: '#b0cdee',
  hover: '#7ba6d6',
  text: { label: '#d6d9d8', tag: '#f5f5f2', tagBack: 'rgba(8,10,11,0.78)', machine: '#a3abae', note: '#0d1320', noteBack: 'rgba(178,205,255,0.96)' },
} // prettier-ignore

/** Drawn in greys that are told apart by their edges. */
const EDGED = [
  'bed', 'swing', 'turning', 'cross-slide', 'cross-slide-profile', 'plate', 'slot', 'plate-hole', 'part', 'packing',
  'clamp', 'heel', 'nut', 'fixture', 'bracket', 'other', 'counterweight', 'bolt', 'strap-line',
] as const satisfies readonly Role[] // prettier-ignore

/** The same for who wishes more contrast: edges and words in ink and broader, no sheen. */
export function strong(palette: Palette): Palette {
  const ink = palette.roles.axis.stroke!
  const edged = Object.fromEntries(
    EDGED.map((role) => {
      const paint = palette.roles[role]
      return [role, { ...paint, stroke: ink, width: 1.5 * (paint.width ?? 1) }]
    }),
  )
  return {
    ...palette,
    roles: { ...palette.roles, ...edged },
    sheen: { light: 'transparent', dark: 'transparent', ring: 'transparent' },
    text: { ...palette.text, label: ink, machine: ink },
  }
}
