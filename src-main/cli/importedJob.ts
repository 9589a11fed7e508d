/** A job around imported bodies. */
import { basename, join } from 'node:path'
import type { Point, Ring } from '../../src-core/geometry/types.ts'
import { ringEdges } from '../../src-core/geometry/edges.ts'
import { newSetup } from '../../src-core/job/newSetup.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { isPrism, type Body, type Job, type Part } from '../../src-core/job/schema.ts'
import { centreOfMass } from '../../src-core/mass/massMoments.ts'
import { partMass } from '../../src-core/mass/part.ts'
import { DEFAULT_EXAMPLE, readExample } from '../services/examples.ts'
import { Failure } from './failure.ts'
import { faultsLine } from './jobInput.ts'

/** mm: the arcs of a round hole share their centre within this. */
const ROUND = 1e-3

/**
 * A new job with these bodies as its part, mild steel, on the bundled example's lathe and plate. What sits on the
 * spindle axis is the largest round hole, else the centre of mass. Throws `Failure` where the bodies make no sound
 * part. `root` is the program's folder, `file` what was imported.
 */
export async function importedJob(root: string, file: string, bodies: readonly Body[]): Promise<Job> {
  const example = parseJob(await readExample(join(root, 'examples'), DEFAULT_EXAMPLE))
  if (!example.ok) throw new Failure(faultsLine(DEFAULT_EXAMPLE, example.faults))
  const title = basename(file).replace(/\.[^.]*$/, '') || 'Imported part'
  const part: Part = {
    name: title,
    material: 'mild steel',
    density: 7850,
    weighedMass: null,
    bodies,
    bores: [],
  }
  const { lathe, plate, stock, displayUnits } = example.job
  const setup = newSetup('op10', largestRoundHole(bodies) ?? planCentre(part))
  const job: Job = {
    format: 'evenswing-job',
    version: 4,
    title,
    displayUnits,
    lathe,
    plate,
    stock,
    part,
    setups: [setup],
  }
  const checked = parseJob(JSON.stringify(job))
  if (!checked.ok) throw new Failure(faultsLine(file, checked.faults))
  return checked.job
}

function planCentre(part: Part): Point {
  const { x, y } = centreOfMass(partMass(part, []).moments)
  return { x, y }
}

function largestRoundHole(bodies: readonly Body[]): Point | null {
  const circles = bodies.flatMap((body) =>
    isPrism(body) ? body.holes.flatMap((hole) => circleOf(hole) ?? []) : [],
  )
  return circles.sort((a, b) => b.radius - a.radius)[0]?.centre ?? null
}

function circleOf(ring: Ring): { centre: Point; radius: number } | null {
  const arcs = ringEdges(ring).map((edge) => edge.arc)
  const [first] = arcs
  if (!first) return null
  const same = arcs.every(
    (arc) =>
      arc !== null &&
      Math.hypot(arc.centre.x - first.centre.x, arc.centre.y - first.centre.y) < ROUND &&
      Math.abs(arc.radius - first.radius) < ROUND,
  )
  return same ? { centre: { x: first.centre.x, y: first.centre.y }, radius: first.radius } : null
}
