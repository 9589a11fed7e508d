/** What a part weighs and where, before and after cuts, in the part frame. */
import { keptBy } from '../geometry/kept.ts'
import { regionEdges } from '../geometry/discCut.ts'
import { edgeMoments, regionMoments } from '../geometry/ringMoments.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { edgesBox, ringEdges } from '../geometry/edges.ts'
import { isPrism, isUpright, liesAcross, type MeshBody, type Part } from '../job/schema.ts'
import { acrossMass } from './across.ts'
import { meshProperties } from '../mesh/properties.ts'
import { silhouette } from '../mesh/silhouette.ts'
import { NO_MASS, addMass, moveMass, scaleMass, type MassMoments } from './massMoments.ts'
import {
  PER_MM3,
  acrossSlabs,
  bodyDensity,
  cutAnnulus,
  cutAway,
  partSlabs,
  removalRange,
  slabMass,
  type Removal,
  type Slab,
} from './slabs.ts'

export interface PartMass {
  /** About the part frame's origin, z above its seat; scaled to the weighed mass where there is one. */
  readonly moments: MassMoments
  /** Sum of the bodies' plan areas, holes and through bores out, removing bodies negative; mm². */
  readonly area: number
  /** mm³. */
  readonly volume: number
  /** kg, from outlines and densities alone, nothing bored. */
  readonly computedMass: number
  /** weighedMass / computedMass, or 1. */
  readonly scale: number
}

export interface MassSummary {
  readonly mass_kg: number
  readonly centroid_mm: readonly [number, number, number]
}

export interface PartSummary extends MassSummary {
  /** Plan area of all bodies, holes out. */
  readonly area_mm2: number
  readonly volume_mm3: number
  /** Mass computed from outline and density before any weighing was applied, kg. */
  readonly computed_mass_kg: number
  /** Density implied by the weighed mass, kg/m³; null where the part was not weighed. */
  readonly implied_density_kg_m3: number | null
}

const kept = keptBy<Part, string, PartMass>()

/**
 * Mass of a part with the given cuts made. The weighed mass is that of the part as drawn, before any cut. The
 * result is kept per part object, which is immutable, so a drag that moves the part weighs it once.
 */
export const partMass = (part: Part, cuts: readonly Removal[]): PartMass =>
  kept(part, JSON.stringify(cuts), () => weigh(part, cuts))

function weigh(part: Part, cuts: readonly Removal[]): PartMass {
  const drawn = partSlabs(part)
  const meshes = meshMass(part)
  const across = acrossOf(part)
  const computedMass = slabMass(drawn).m + meshes.mass.m + across.mass.m
  const scale = part.weighedMass !== null && computedMass > 0 ? part.weighedMass / computedMass : 1
  let slabs = drawn
  for (const cut of cuts) slabs = cutAway(part, slabs, cut)
  let volume = meshes.volume
  const lost = cutFromAcross(part, cuts)
  volume += across.volume - lost.volume
  volume += slabVolume(slabs)
  return {
    moments: scaleMass(
      [meshes.mass, across.mass, scaleMass(lost.mass, -1)].reduce((a, b) => addMass(a, b), slabMass(slabs)),
      scale,
    ),
    area: planArea(part, cuts) + meshes.area + across.area,
    volume,
    computedMass,
    scale,
  }
}

function planArea(part: Part, cuts: readonly Removal[]): number {
  let area = 0
  for (const body of part.bodies.filter(isUpright)) {
    let edges = regionEdges(body)
    let own = regionMoments(body, body.outline[0]).area
    for (const cut of cuts) {
      const range = removalRange(part, cut)
      const front = body.base + body.thickness
      if (!range || range.z0 > body.base + TOLERANCE.height || range.z1 < front - TOLERANCE.height) continue
      edges = cutAnnulus(edges, cut).left
      own = edgeMoments(edges, body.outline[0]).area
    }
    area += (body.effect === 'adds' ? 1 : -1) * own
  }
  return area
}

/** Bodies that lie across, whole; their plan area is that of what is seen of them from in front. */
function acrossOf(part: Part): { mass: MassMoments; volume: number; area: number } {
  let mass = NO_MASS
  let volume = 0
  let area = 0
  for (const body of part.bodies.filter(liesAcross)) {
    const sign = body.effect === 'adds' ? 1 : -1
    mass = addMass(mass, acrossMass(body, bodyDensity(part, body) * PER_MM3))
    volume += sign * regionMoments(body, body.outline[0]).area * body.thickness
    const { x0, x1 } = edgesBox(ringEdges(body.outline))
    area += sign * (x1 - x0) * body.thickness
  }
  return { mass, volume, area }
}

/** What cuts take off bodies that lie across: exact where those are made of blocks, else of their steps. */
function cutFromAcross(part: Part, cuts: readonly Removal[]): { mass: MassMoments; volume: number } {
  if (cuts.length === 0 || !part.bodies.some(liesAcross)) return { mass: NO_MASS, volume: 0 }
  const whole = acrossSlabs(part)
  const left = cuts.reduce<readonly Slab[]>((slabs, cut) => cutAway(part, slabs, cut), whole)
  return {
    mass: addMass(slabMass(whole), slabMass(left), -1),
    volume: slabVolume(whole) - slabVolume(left),
  }
}

const slabVolume = (slabs: readonly Slab[]): number =>
  slabs.reduce((sum, s) => sum + Math.sign(s.density) * (s.z1 - s.z0) * edgeMoments(s.edges).area, 0)

/** Mesh bodies are taken whole: nothing cuts them. */
function meshMass(part: Part): { mass: MassMoments; volume: number; area: number } {
  let mass = NO_MASS
  let volume = 0
  let area = 0
  for (const body of part.bodies) {
    if (isPrism(body)) continue
    const p = meshProperties(body.mesh)
    const sign = body.effect === 'adds' ? 1 : -1
    mass = addMass(mass, meshBodyMass(body, bodyDensity(part, body)))
    volume += sign * p.volume
    area += sign * silhouetteArea(body.mesh)
  }
  return { mass, volume, area }
}

const silhouetteArea = (mesh: MeshBody['mesh']) =>
  silhouette(mesh).reduce((sum, region) => sum + regionMoments(region, region.outline[0]).area, 0)

/** @param density kg/m³, signed. */
function meshBodyMass(body: MeshBody, density: number): MassMoments {
  const { volume: m, ...moments } = meshProperties(body.mesh)
  const solid = { m, ...moments }
  return moveMass(scaleMass(solid, density * PER_MM3), 0, 0, body.base)
}
