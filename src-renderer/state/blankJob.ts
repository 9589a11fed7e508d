/** A job to start from: ordinary figures to be put right, one plain block on an eight-slot plate. */
import { rectRing, circleRing } from '../../src-core/geometry/edges.ts'
import { cutsToFinish } from '../editor/edits/cuts.ts'
import { newSetup } from '../../src-core/job/newSetup.ts'
import type { Job, Prism } from '../../src-core/job/schema.ts'
import { byRule, inches, sizeFor } from '../../src-core/units/convert.ts'

export interface StartFrom {
  readonly title: string
  readonly displayUnits: Job['displayUnits']
  readonly swingOverBed: number
  readonly swingOverCrossSlide: number
  /** rpm of its steps. */
  readonly speeds: readonly number[]
  readonly plateDiameter: number
  /** Null: computed as a solid iron disc of its size. */
  readonly plateMass: number | null
  readonly slotCount: number
  /** `drawn`, `traced` and `file`: its outline comes after; until then a disc round the bore stands in for it. */
  readonly shape: 'rectangle' | 'disc' | 'drawn' | 'traced' | 'file' | 'block'
  /** mm: length or diameter, width, thickness. */
  readonly length: number
  readonly width: number
  readonly thickness: number
  readonly material: string
  readonly density: number
  /** Bore: how far along the length from the part's middle, finish and starting diameter. */
  readonly boreOffset: number
  readonly boreDiameter: number
  readonly boreStart: number
  /** mm between plate and part. */
  readonly packing: number
}

export const START: StartFrom = {
  title: '',
  displayUnits: 'mm',
  swingOverBed: 330,
  swingOverCrossSlide: 190,
  speeds: [45, 70, 110, 155, 240, 360, 540],
  plateDiameter: 300,
  plateMass: null,
  slotCount: 8,
  shape: 'rectangle',
  length: 140,
  width: 90,
  thickness: 20,
  material: 'mild steel',
  density: 7850,
  boreOffset: 35,
  boreDiameter: 40,
  boreStart: 0,
  packing: 12,
}

/** The same for a shop that works in inches: its own round figures. */
export const START_INCH: StartFrom = {
  ...START,
  displayUnits: 'in',
  swingOverBed: inches(13),
  swingOverCrossSlide: inches(7.5),
  plateDiameter: inches(12),
  length: inches(5.5),
  width: inches(3.5),
  thickness: inches(0.75),
  boreOffset: inches(1.375),
  boreDiameter: inches(1.5),
  packing: inches(0.5),
}
export const startIn = (units: Job['displayUnits']): StartFrom => (units === 'in' ? START_INCH : START)

/** A stand-in for an outline that is still to come, so many times the bore. */
const STAND_IN = 2

/** Whether the part's own outline is still to come. */
export const isStandIn = ({ shape }: Pick<StartFrom, 'shape'>): boolean =>
  shape !== 'rectangle' && shape !== 'disc'

/** kg/m³: grey cast iron, which most faceplates are made of. */
const PLATE_DENSITY = 7200
const PLATE_THICKNESS_SHARE = 0.09

/** kg of a solid iron disc with a bore, less a tenth for slots and relief: an estimate to be weighed. */
export function plateMassEstimate(diameter: number, thickness: number, bore: number): number {
  const volume = (Math.PI / 4) * (diameter ** 2 - bore ** 2) * thickness
  return Number((0.9 * volume * PLATE_DENSITY * 1e-9).toFixed(1))
}

export function blankJob(from: StartFrom): Job {
  const d = from.plateDiameter
  const round = (mm: number) => byRule(mm, from.displayUnits)
  const thickness = round(d * PLATE_THICKNESS_SHARE)
  const plateBore = round(d * 0.125)
  // An outline that is drawn, or read, counts from its bore.
  const boreAt = isStandIn(from) ? 0 : from.boreOffset
  const hole = from.boreStart > 0 ? [circleRing({ x: boreAt, y: 0 }, from.boreStart)] : []
  return {
    format: 'evenswing-job',
    version: 4,
    title: from.title,
    displayUnits: from.displayUnits,
    lathe: {
      name: '',
      swingOverBed: from.swingOverBed,
      swingOverCrossSlide: from.swingOverCrossSlide,
      gap: null,
      speeds: { steps: from.speeds.map((rpm) => ({ rpm })), stepless: null },
      maxSpindleSpeed: null,
      noseOverhang: null,
      loadLimit: null,
      barReach: null,
    },
    plate: {
      name: '',
      diameter: d,
      thickness,
      bore: plateBore,
      mass: from.plateMass ?? plateMassEstimate(d, thickness, plateBore),
      ratedSpeed: null,
      slots: Array.from({ length: from.slotCount }, (_, i) => ({
        id: `S${i + 1}`,
        angle: Math.round((i * 360_000) / from.slotCount) / 1000,
        from: round(d * (from.slotCount > 4 ? 0.22 : 0.17)),
        to: round(d * 0.45),
        // For the usual studs of a plate of this size.
        width: sizeFor(from.displayUnits, 14, 9 / 16),
        kind: 'through' as const,
      })),
      holes: [],
    },
    stock: [],
    part: {
      name: '',
      material: from.material,
      density: from.density,
      weighedMass: null,
      bodies: [
        {
          id: 'body',
          effect: 'adds',
          outline: outlineOf(from),
          holes: hole,
          base: 0,
          thickness: from.thickness,
        },
      ],
      bores: [
        {
          id: 'A',
          x: boreAt,
          y: 0,
          diameter: from.boreDiameter,
          start: from.boreStart,
          depth: null,
        },
      ],
    },
    // The lowest gear, where one starts: there is a verdict at once.
    setups: [
      {
        ...newSetup('op10', { bore: 'A' }),
        // A part on a base is not packed up: it is asked for nothing that stands under it.
        packing: from.shape === 'block' ? 0 : from.packing,
        speed: Math.min(...from.speeds),
        cuts: cutsToFinish(
          { id: 'A', diameter: from.boreDiameter, start: from.boreStart },
          from.displayUnits,
        ),
      },
    ],
  }
}

function outlineOf({ shape, length, width, boreDiameter }: StartFrom): Prism['outline'] {
  const middle = { x: 0, y: 0 }
  if (shape === 'rectangle') return rectRing(middle, length, width, 0)
  return circleRing(middle, shape === 'disc' ? length : STAND_IN * boreDiameter)
}
