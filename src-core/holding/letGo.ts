/** What a piece does if it lets go. */
import type { Point, Point3 } from '../geometry/types.ts'
import type { Mounted } from '../mounting/types.ts'
import { angularSpeed } from '../unbalance/static.ts'
import type { Formatter } from '../units/format.ts'

/** What a piece would do if it let go, at the chosen speed. */
export interface LetGo {
  /** 'part', or the id of the piece. */
  readonly item: string
  readonly mass_kg: number
  readonly speed_m_s: number
  readonly energy_J: number
}

/**
 * Speed v = ω·r of each separate piece's centre of mass, m/s, and its energy ½·m·v², J, if it lets go at `rpm`.
 * Empty where no speed is chosen.
 */
export function letGo(mounted: Mounted, rpm: number | null, partMass: number, partCentre: Point3): LetGo[] {
  if (rpm === null) return []
  const omega = angularSpeed(rpm)
  const one = (item: string, mass: number, at: Point): LetGo => {
    const speed = (omega * Math.hypot(at.x, at.y)) / 1000
    return { item, mass_kg: mass, speed_m_s: speed, energy_J: (mass * speed * speed) / 2 }
  }
  return [
    one('part', partMass, partCentre),
    ...mounted.pieces.map((p) => one(p.item.id, p.mass, p.massCentre)),
  ]
}

/** "1.2 kg at 8 m/s, 38 J". */
export const letGoFigures = (fmt: Formatter, { mass_kg, speed_m_s, energy_J }: LetGo): string =>
  `${fmt.mass(mass_kg)} at ${fmt.velocity(speed_m_s)}, ${fmt.energy(energy_J)}`

/** "Lets go at 900 rpm: 1.2 kg at 8 m/s, 38 J."; empty where it does not move. */
export const letGoWords = (fmt: Formatter, rpm: number, one: LetGo | undefined): string =>
  one && one.energy_J > 0 ? `Lets go at ${fmt.speed(rpm)}: ${letGoFigures(fmt, one)}.` : ''

/** "; if w1 let go it would fly with 3.1 J": what flies with the most energy; empty where nothing moves. */
export function mostEnergy(fmt: Formatter, all: readonly LetGo[]): string {
  const worst = all.reduce<LetGo | null>((a, b) => (a && a.energy_J >= b.energy_J ? a : b), null)
  if (!worst || !(worst.energy_J > 0)) return ''
  return `; if ${worst.item === 'part' ? 'it' : worst.item} let go it would fly with ${fmt.energy(worst.energy_J)}`
}

/** The part, and of the pieces the one with the most energy, in a sentence of its own each. */
export function worstLetGo(fmt: Formatter, rpm: number, all: readonly LetGo[]): string[] {
  const pieces = all.filter((l) => l.item !== 'part' && l.energy_J > 0)
  const worst = pieces.reduce<LetGo | null>((a, b) => (a && a.energy_J >= b.energy_J ? a : b), null)
  const part = all.find((l) => l.item === 'part' && l.energy_J > 0)
  return [
    ...(part ? [`If the part lets go at ${fmt.speed(rpm)}: ${letGoFigures(fmt, part)}.`] : []),
    ...(worst ? [`If ${worst.item} lets go, the most of all pieces: ${letGoFigures(fmt, worst)}.`] : []),
  ]
}
