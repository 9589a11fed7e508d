/** Whether a bar goes into the hole that it bores, and reaches to its bottom. mm. */
import { finding, type Finding } from '../findings/finding.ts'
import { turnedDiameters } from '../mounting/cutAway.ts'
import { isBoreCut } from '../job/schema.ts'
import { sizeFor } from '../units/convert.ts'
import type { DisplayUnits, Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import type { Bar } from './bar.ts'
import { cutWords, type CutPlace } from './cutPlace.ts'

/** @param places of all cuts of the setup, in their order: a drill opens what is bored after it. */
export function barFits(fmt: Formatter, places: readonly CutPlace[], place: CutPlace): Finding[] {
  const { cut, item, z0, z1 } = place
  const bar = 'bar' in cut ? cut.bar : null
  if (!bar) return []
  const what = capital(cutWords(cut))
  const hole = openedTo(places, place)
  if (hole > 0 && bar.diameter >= hole) {
    const message = `${what}, the bar does not go into the hole: it is ${fmt.length(bar.diameter)} thick, the hole ${fmt.length(hole)} wide to begin with. Take a thinner bar, or open the hole first.`
    return [finding('stop', 'bar-unfit', item, message)]
  }
  if (bar.overhang >= z1 - z0) return []
  const message = `${what}, the bar's holder runs into the work: the bar stands out ${fmt.length(bar.overhang)}, and the cut is ${fmt.length(z1 - z0)} deep. Let it stand out further.`
  return [finding('stop', 'bar-unfit', item, message)]
}

/** Where a hole is narrower than usual, the share of it that a bar takes: the rest is for its tool and the chips. Own choice. */
const OF_HOLE = 0.6

/** A bar to begin with, until its own sizes are known: of usual size where that goes into the hole and reaches its bottom. */
export function usualBar(units: DisplayUnits, places: readonly CutPlace[], place: CutPlace | null): Bar {
  const step = sizeFor(units, 1, 1 / 16)
  const hole = place ? openedTo(places, place) : 0
  const thick = sizeFor(units, 20, 3 / 4)
  const reach = place ? place.z1 - place.z0 + step : 0
  return {
    diameter: hole > 0 ? Math.min(thick, Math.max(1, Math.floor((OF_HOLE * hole) / step)) * step) : thick,
    overhang: Math.max(sizeFor(units, 80, 3), Math.ceil(reach / step) * step),
  }
}

/** Diameter of the hole before the cut: as it starts, or as a drill before it leaves it; 0 where it is solid. */
function openedTo(places: readonly CutPlace[], place: CutPlace): number {
  const { cut, bore } = place
  if (!isBoreCut(cut)) return turnedDiameters(cut)[0]
  const drills = places
    .slice(0, places.indexOf(place))
    .flatMap((p) => (p.cut.kind === 'drill' && p.cut.bore === cut.bore ? [p.cut.diameter] : []))
  return Math.max(bore?.bore.start ?? 0, ...drills)
}
