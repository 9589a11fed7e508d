/** An invented part of 2,000 vertices, straight and arc edges, holes and bores, clamped on the example's plate. */
import { readFileSync } from 'node:fs'
import type { Vertex } from '../src-core/geometry/types.ts'
import { parseJob } from '../src-core/job/parse.ts'
import type { Job } from '../src-core/job/schema.ts'
import { editJob } from '../src-renderer/editor/edits/edit.ts'

/** A wavy ring; every other edge is an arc. */
function wavy(count: number, radius: number, at: { x: number; y: number }): Vertex[] {
  return Array.from({ length: count }, (_, i) => {
    const t = (2 * Math.PI * i) / count
    const r = radius * (1 + 0.12 * Math.cos(3 * t) + 0.01 * Math.cos(40 * t))
    return { x: at.x + r * Math.cos(t), y: at.y + r * Math.sin(t), bulge: i % 2 === 0 ? 0.05 : 0 }
  })
}

export function dragJob(vertices: number): Job {
  const text = readFileSync('examples/flat-link.evenswing', 'utf8')
  const read = parseJob(text)
  if (!read.ok) throw new Error('the example is not sound')
  const hole = Math.round(vertices / 10)
  return editJob(read.job, (d) => {
    d.title = `${vertices} vertices`
    const [body] = d.part.bodies
    if (!body || !('outline' in body)) throw new Error('the example has no outline')
    body.outline = wavy(vertices - 2 * hole, 62, { x: 20, y: 0 })
    body.holes = [wavy(hole, 14, { x: 50, y: 20 }), wavy(hole, 14, { x: 50, y: -20 })]
    d.part.bores = [
      { id: 'A', x: 0, y: 0, diameter: 42, start: 0, depth: null },
      { id: 'B', x: 14, y: 38, diameter: 16, start: 0, depth: null },
    ]
    d.setups.splice(1)
  })
}
