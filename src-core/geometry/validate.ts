/**
 * What is wrong with a ring or a region, each fault with its place. Nothing is repaired here. Rings that pass may
 * go to the moments and to the polygon library.
 */
import { crossings } from './crossings.ts'
import type { RingFault, RingFaultKind } from './ringFault.ts'
import { ringEdges } from './edges.ts'
import { ringMoments } from './ringMoments.ts'
import { isInside } from './nearest.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Region, Ring } from './types.ts'

/** Faults of a region; empty where it may be used. At most `most` are listed. */
export function regionFaults(region: Region, most = 20): RingFault[] {
  const rings = [region.outline, ...region.holes]
  const faults: RingFault[] = []
  rings.forEach((ring, i) => faults.push(...basicFaults(ring, i)))
  if (faults.length > 0) return faults.slice(0, most)
  faults.push(...crossings(rings, most))
  rings.forEach((ring, i) => faults.push(...emptiness(ring, i)))
  if (faults.length > 0) return faults.slice(0, most)
  faults.push(...misplacedHoles(rings))
  return faults.slice(0, most)
}

function faultAt(kind: RingFaultKind, ring: Ring, index: number, vertex: number): RingFault {
  const v = ring[vertex] ?? { x: 0, y: 0 }
  return { kind, ring: index, vertex, at: { x: v.x, y: v.y } }
}

/** Fewer than three distinct vertices (two where an edge is an arc), not finite, repeated. */
function basicFaults(ring: Ring, index: number): RingFault[] {
  const fault = (kind: RingFaultKind, vertex: number) => faultAt(kind, ring, index, vertex)
  const odd = ring.findIndex(
    (v) => !Number.isFinite(v.x) || !Number.isFinite(v.y) || !Number.isFinite(v.bulge ?? 0),
  )
  if (odd >= 0) return [fault('not-finite', odd)]
  const hasArc = ring.some((v) => v.bulge)
  if (ring.length < (hasArc ? 2 : 3)) return [fault('too-few-vertices', 0)]
  const faults: RingFault[] = []
  ring.forEach((v, i) => {
    const next = ring[(i + 1) % ring.length]!
    if (Math.hypot(next.x - v.x, next.y - v.y) <= TOLERANCE.coincident)
      faults.push(fault('repeated-vertex', i))
  })
  return faults
}

/** A ring that encloses less than a nanometre's width along its length. */
function emptiness(ring: Ring, index: number): RingFault[] {
  const length = ringEdges(ring).reduce((s, e) => s + Math.hypot(e.b.x - e.a.x, e.b.y - e.a.y), 0)
  const empty = ringMoments(ring, ring[0]).area <= TOLERANCE.coincident * length
  return empty ? [faultAt('no-area', ring, index, 0)] : []
}

function misplacedHoles(rings: readonly Ring[]): RingFault[] {
  const faults: RingFault[] = []
  const outline = rings[0]!
  for (let i = 1; i < rings.length; i++) {
    const at = { x: rings[i]![0]!.x, y: rings[i]![0]!.y }
    if (!isInside(outline, at)) faults.push({ kind: 'hole-outside-outline', ring: i, vertex: 0, at })
    for (let j = 1; j < rings.length; j++) {
      if (j !== i && isInside(rings[j]!, at))
        faults.push({ kind: 'hole-inside-hole', ring: i, vertex: 0, at })
    }
  }
  return faults
}
