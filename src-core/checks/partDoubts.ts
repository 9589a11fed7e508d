/** What is doubtful about the part as described: mass counted twice, odd density, bores that do not fit. */
import type { Finding } from '../findings/finding.ts'
import { ringEdges } from '../geometry/edges.ts'
import { polygonArea, polygonDifference, polygonIntersection, polygonPlace } from '../geometry/polygon.ts'
import type { Polygons } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { findMaterial, SOLID_DENSITY } from '../job/materials.ts'
import type { Point } from '../geometry/types.ts'
import { isPrism, type Job, type Part, type Prism } from '../job/schema.ts'
import { PER_MM3, boreRange, type BoreRange } from '../mass/slabs.ts'
import type { PartMass } from '../mass/part.ts'
import type { Mounted } from '../mounting/types.ts'
import { inRegion } from '../geometry/nearest.ts'
import { formatter, plain } from '../units/format.ts'
import { finding } from '../findings/finding.ts'
import { boxesMeet } from '../geometry/polygonBox.ts'
import { flatBodies, heightOverlap, type FlatBody } from '../mounting/material.ts'

/** Share by which a weighed part may differ from its material before it is questioned. */
export const DENSITY_DOUBT = 0.1

/** Times by which they may differ before one of them must be wrong. Own choice. */
const CONTRADICTED = 2

/** Nobody reads more, and two hundred bodies have twenty thousand pairs. */
const MOST_PAIRS = 40

/** Bodies that share plan and height count twice. */
export function overlapFindings(mounted: Mounted): Finding[] {
  const bodies = flatBodies(mounted)
  const adds = bodies.filter((b) => b.adds)
  const found: Finding[] = []
  for (const [i, a] of adds.entries())
    for (const b of adds.slice(i + 1)) {
      const overlap = overlapOf(mounted.job, a, b, bodies)
      if (overlap === null) continue
      if (found.length === MOST_PAIRS) {
        const message = `More than ${MOST_PAIRS} pairs of bodies overlap. Mend these first; the others are named then.`
        return [...found, finding('caution', 'bodies-overlap', b.id, message)]
      }
      found.push(overlap)
    }
  return found
}

/** What two bodies share, less what bodies that take away take of it; null where that is nothing. */
function overlapOf(job: Job, a: FlatBody, b: FlatBody, bodies: readonly FlatBody[]): Finding | null {
  const height = heightOverlap(a, b)
  if (height <= TOLERANCE.height || !boxesMeet(a.box, b.box)) return null
  let both = polygonIntersection(a.polygons, b.polygons)
  const low = Math.max(a.z0, b.z0)
  const high = Math.min(a.z1, b.z1)
  for (const r of bodies)
    if (!r.adds && r.z0 <= low && r.z1 >= high) both = polygonDifference(both, r.polygons)
  const area = polygonArea(both)
  // No wider than arcs stray as chords: they touch.
  if (area <= TOLERANCE.clashArea || area <= (TOLERANCE.inside * perimeter(both)) / 2) return null
  const fmt = formatter(job.displayUnits)
  const density = job.part.bodies.find((body) => body.id === b.id)?.density ?? job.part.density
  const doubled = area * height * density * PER_MM3
  const message = `Bodies ${a.id} and ${b.id} overlap by ${fmt.area(area)} over ${fmt.length(height)} of height: ${fmt.mass(doubled)} is counted twice. Cut one back or raise its base.`
  return finding('caution', 'bodies-overlap', b.id, message, polygonPlace(both))
}

/** mm all round. */
const perimeter = (polygons: Polygons): number =>
  polygons
    .flatMap((ring) => ringEdges(ring))
    .reduce((sum, { a, b }) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0)

/** The density a weighing implies, and one that does not suit the material named. */
export const densityFindings = (job: Job, mass: PartMass): Finding[] => [
  ...weighingFindings(job, mass),
  ...namedFindings(job),
  ...bodyDensities(job),
]

const isFar = (ratio: number): boolean => ratio > CONTRADICTED || ratio < 1 / CONTRADICTED

/** Mass and pull of what cannot be as it is said to be mean nothing. */
const contradicted = (item: string, message: string): Finding =>
  finding(
    'caution',
    'density-contradicted',
    item,
    `${message} The two cannot both be right, so what turns is not known.`,
  )

function weighingFindings({ part, displayUnits }: Job, mass: PartMass): Finding[] {
  if (part.weighedMass === null) return []
  const fmt = formatter(displayUnits)
  const expected = findMaterial(part.material)?.density ?? part.density
  const implied = part.density * mass.scale
  const off = implied / expected - 1
  if (Math.abs(off) <= DENSITY_DOUBT) return []
  const message = `Weighed ${fmt.mass(part.weighedMass)} against ${fmt.mass(mass.computedMass)} from the outline: that implies ${fmt.density(implied)}, ${plain(Math.abs(off) * 100, 0)} % ${off > 0 ? 'above' : 'below'} ${fmt.density(expected)} for ${part.material || 'the material'} (questioned beyond 10 %). Check outline, thickness, cored hollows and the scale.`
  return [
    isFar(1 + off)
      ? contradicted('part', message)
      : finding('caution', 'density-questioned', 'part', message),
  ]
}

function namedFindings({ part, displayUnits }: Job): Finding[] {
  const material = findMaterial(part.material)
  if (!material) return []
  const off = part.density / material.density - 1
  if (Math.abs(off) <= DENSITY_DOUBT) return []
  const fmt = formatter(displayUnits)
  const message = `Density ${fmt.density(part.density)} is ${plain(Math.abs(off) * 100, 0)} % off ${fmt.density(material.density)} for ${material.name}. Correct the density or the material.`
  // What is weighed is so heavy whatever density is written.
  const far = part.weighedMass === null && isFar(1 + off)
  return [far ? contradicted('part', message) : finding('caution', 'density-unlikely', 'part', message)]
}

/** Of bodies with a density of their own, and of the part where its material is no known one. */
function bodyDensities({ part, displayUnits }: Job): Finding[] {
  const fmt = formatter(displayUnits)
  const own = part.bodies.flatMap((b) => (b.density ? [{ id: b.id, density: b.density }] : []))
  const whole = findMaterial(part.material) ? [] : [{ id: 'part', density: part.density }]
  return [...whole, ...own].flatMap(({ id, density }) => {
    if (density >= SOLID_DENSITY.least && density <= SOLID_DENSITY.most) return []
    const what = id === 'part' ? 'the part' : `body ${id}`
    const message = `Density ${fmt.density(density)} of ${what} is that of no material that is turned. Correct it.`
    return [finding('caution', 'density-contradicted', id, message)]
  })
}

/** Whether the part is drawn solid at a point over the heights that a bore goes through. */
function solidAt(part: Part, at: Point, range: BoreRange): boolean {
  const there = part.bodies.filter((b): b is Prism => {
    if (!isPrism(b) || !inRegion(b, at)) return false
    return heightOverlap({ z0: b.base, z1: b.base + b.thickness }, range) > TOLERANCE.height
  })
  return there.some((b) => b.effect === 'adds') && !there.some((b) => b.effect === 'removes')
}

/** Bores that meet nothing, whose start diameter is not there, or that a mesh body cannot lose. */
export function boreFindings(mounted: Mounted): Finding[] {
  const { part, displayUnits } = mounted.job
  const fmt = formatter(displayUnits)
  const hasMesh = part.bodies.some((b) => !isPrism(b))
  return mounted.bores.flatMap(({ bore, centre, state }) => {
    if (state === 'uncut') return []
    if (hasMesh) {
      const message = `Bore ${bore.id} is not taken out of bodies that come from a mesh: their mass stays as imported, before and after the cut.`
      return [finding('caution', 'bore-in-mesh', bore.id, message, centre)]
    }
    const range = boreRange(part, bore)
    if (!range) {
      const message = `Bore ${bore.id} meets no material of the part. Check its place.`
      return [finding('caution', 'bore-in-air', bore.id, message, centre)]
    }
    if (bore.start === 0 || !solidAt(part, bore, range)) return []
    const message = `Bore ${bore.id} is said to start at ${fmt.length(bore.start)}, but the outline is solid there: the core stays counted. Draw the ${fmt.length(bore.start)} hole, or set the start to 0.`
    return [finding('caution', 'bore-start-solid', bore.id, message, centre)]
  })
}
