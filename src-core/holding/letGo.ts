/** What a piece does if it lets go. */
import type { Point, Point3 } from '../geometry/types.ts'
import type { Mounted } from '../mounting/types.ts'
import { angularSpeed } from '../unbalance/static.ts'

/** What a piece would do if it let go, at the chosen speed. */
export interface LetGo {
  readonly item: string
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
    return { item, speed_m_s: speed, energy_J: (mass * speed * speed) / 2 }
  }
  return [
    one('part', partMass, partCentre),
    ...mounted.pieces.map((p) => one(p.item.id, p.mass, p.massCentre)),
  ]
}
