/** Thrust and torque of twist drills. */
import { toRadians } from '../geometry/angles.ts'
import { specificCuttingForce, type CuttingGroup } from './groups.ts'

export interface DrillLoad {
  /** N along the axis. */
  readonly thrust: number
  /** N·m */
  readonly torque: number
}

/** Constants for a standard drill, web over diameter 0.18 (Machinery's Handbook, 31st ed., p. 1153). */
const STANDARD_WEB = { A: 1.085, B: 1.355, J: 0.03 } as const

/** Feed factor F_f = f^0.8 for a feed in mm/rev; reproduces the printed table. */
export const drillFeedFactor = (feed: number): number => feed ** 0.8
/** Thrust factor F_T = D^0.8, D in mm. */
export const drillThrustFactor = (diameter: number): number => diameter ** 0.8
/** Torque factor F_M = D^1.8, D in mm. */
export const drillTorqueFactor = (diameter: number): number => diameter ** 1.8

/**
 * Machinery's Handbook, 31st ed., pp. 1152–1153, SI form:
 * T = 0.05·K_d·F_f·F_T·B·W + 0.007·K_d·D²·J·W, M = 0.000025·K_d·F_f·F_M·A·W; K_d the work material's factor, W the
 * wear factor (1 sharp, 1.3 worn).
 */
export function handbookDrilling(
  materialFactor: number,
  diameter: number,
  feed: number,
  wear: number,
): DrillLoad {
  const { A, B, J } = STANDARD_WEB
  const ff = drillFeedFactor(feed)
  return {
    thrust:
      0.05 * materialFactor * ff * drillThrustFactor(diameter) * B * wear +
      0.007 * materialFactor * diameter ** 2 * J * wear,
    torque: 0.000025 * materialFactor * ff * drillTorqueFactor(diameter) * A * wear,
  }
}

/** Half the point angle of a 118° drill. */
const HALF_POINT = toRadians(59)

/**
 * From specific cutting force, chip thickness h = (f/2)·sin(σ/2): M = k_c·f·D²/8000 N·m, thrust ½·k_c·f·(D/2)·sin(σ/2)
 * N. Common form, from memory; a training text's figures for a 10 mm drill lie well above it, so it is not used alone
 * where the handbook's can be.
 */
export function kienzleDrilling(group: CuttingGroup, diameter: number, feed: number): DrillLoad {
  const kc = specificCuttingForce(group, (feed / 2) * Math.sin(HALF_POINT))
  return {
    thrust: 0.5 * kc * feed * (diameter / 2) * Math.sin(HALF_POINT),
    torque: (kc * feed * diameter ** 2) / 8000,
  }
}

/**
 * A tool maker's formulas for twist drills (Tungaloy, general catalogue 2020–2021, p. L068), D in mm, f in mm/rev:
 * thrust 570·K·D·f^0.85 N, torque K·D²·(0.630 + 16.84·f)/100 N·m.
 */
export const makersDrilling = (factor: number, diameter: number, feed: number): DrillLoad => ({
  thrust: 570 * factor * diameter * feed ** 0.85,
  torque: (factor * diameter ** 2 * (0.63 + 16.84 * feed)) / 100,
})

/** Wear factor taken for holding: a worn drill. */
export const DRILL_WEAR = 1.3

/**
 * What the Kienzle form is raised by where neither publisher gives a factor for the material: a training text prints
 * 15 N·m for a 10 mm drill at 0.3 mm/rev in steel where the form gives 8.8. Rule of thumb from that one ratio.
 */
export const KIENZLE_MARGIN = 1.7

const published = ({ drillFactors }: CuttingGroup) => [drillFactors.handbook, drillFactors.maker]
const isSingle = (group: CuttingGroup): boolean => published(group).every((k) => k === null)

/** The highest of the methods in each figure: for holding, more is the careful side. */
export function drillingLoad(group: CuttingGroup, diameter: number, feed: number): DrillLoad {
  const kienzle = kienzleDrilling(group, diameter, feed)
  if (isSingle(group))
    return { thrust: kienzle.thrust * KIENZLE_MARGIN, torque: kienzle.torque * KIENZLE_MARGIN }
  const { handbook, maker } = group.drillFactors
  const loads = [
    kienzle,
    ...(handbook === null ? [] : [handbookDrilling(handbook, diameter, feed, DRILL_WEAR)]),
    ...(maker === null ? [] : [makersDrilling(maker, diameter, feed)]),
  ]
  return {
    thrust: Math.max(...loads.map((l) => l.thrust)),
    torque: Math.max(...loads.map((l) => l.torque)),
  }
}

/** What a drill's load rests on, in words. */
export function drillBasis(group: CuttingGroup): string {
  if (isSingle(group))
    return `by specific cutting force alone, raised by ${KIENZLE_MARGIN} as a rule of thumb`
  return group.drillFactors.handbook === null
    ? "the higher of a tool maker's formula and specific cutting force"
    : "the highest of a handbook's formula for a worn drill, a tool maker's and specific cutting force"
}
