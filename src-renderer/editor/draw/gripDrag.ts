/** What dragging a grip does to the ring it belongs to, part frame. */
import { ROUNDING } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { setRing } from '../edits/bodies.ts'
import { moveRings } from '../edits/bodyCopies.ts'
import type { Drag } from '../grab.ts'
import type { PointerInput } from '../port.ts'
import { roundTo } from '../snap.ts'
import type { DrawPort, DrawPreview } from './drawPort.ts'
import { bulgeFor, findRing, type Grip } from './grips.ts'
import { moveEdge, moveVertex, setBulge, translate } from './rings.ts'
import { sameRing } from './snapping.ts'

const LABELS: Readonly<Record<Grip['kind'], string>> = {
  vertex: 'Move a vertex',
  bulge: 'Bend an edge',
  edge: 'Move an edge',
  ring: 'Move a ring',
}

/** Null where the ring is gone. */
export function gripDrag(port: DrawPort, grip: Grip, pressed: PointerInput): Drag<DrawPreview> | null {
  const { job } = port
  const ring = findRing(job.part, grip.ref)
  if (!ring) return null
  const from = port.toPart(pressed.world)
  const together = port.together.some((r) => sameRing(r, grip.ref)) ? port.together : [grip.ref]
  const put = (next: Ring) => setRing(job, grip.ref.body, grip.ref.ring, next)
  const moved = (raw: Point, input: PointerInput): Point => {
    const step = input.alt ? 0.01 : port.step(input.pxPerMm)
    return { x: roundTo(raw.x - from.x, step), y: roundTo(raw.y - from.y, step) }
  }
  const at = (input: PointerInput) => {
    const raw = port.toPart(input.world)
    switch (grip.kind) {
      case 'vertex': {
        const before = ring[(grip.index + ring.length - 1) % ring.length]!
        const { point, text } = port.snap(input, before, { ref: grip.ref, vertex: grip.index })
        const place = `${port.length(point.x)}, ${port.length(point.y)}`
        return {
          job: put(moveVertex(ring, grip.index, point)),
          shown: shown(point, [text, place], text !== ''),
        }
      }
      case 'bulge': {
        const [a, b] = [ring[grip.index]!, ring[(grip.index + 1) % ring.length]!]
        const bulge = bulgeFor(a, b, raw, input.pxPerMm, input.alt)
        const [caught, radius] = bend(bulge, Math.hypot(b.x - a.x, b.y - a.y), (mm) => port.length(mm))
        return {
          job: put(setBulge(ring, grip.index, bulge)),
          shown: shown(raw, [caught, radius], caught !== ''),
        }
      }
      case 'edge':
      case 'ring': {
        const by = moved(raw, input)
        const next =
          grip.kind === 'edge'
            ? put(moveEdge(ring, grip.index, by))
            : moveRings(job, together, (r) => translate(r, by))
        return { job: next, shown: shown(raw, [`x ${port.length(by.x)}, y ${port.length(by.y)}`], false) }
      }
    }
  }
  return { label: together.length > 1 ? `Move ${together.length} rings` : LABELS[grip.kind], at }
}

const shown = (at: Point, words: readonly string[], snapped: boolean): DrawPreview => ({
  path: [],
  closed: false,
  at,
  text: words.filter(Boolean).join('  '),
  snapped,
})

/** What an arc caught on, and its radius over its chord. */
function bend(
  bulge: number,
  chord: number,
  length: (mm: number) => string,
): [caught: string, radius: string] {
  if (bulge === 0) return ['straight', '']
  const half = Math.abs(Math.abs(bulge) - 1) < ROUNDING.share
  return [half ? 'half turn' : '', `R ${length((chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge)))}`]
}
