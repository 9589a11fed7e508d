import type { Vertex } from '../../geometry/types.ts'
import type { PathStep } from './model.ts'

/** One unbroken run of a path. `bulge` belongs to the edge that leaves a vertex, as in a ring. */
export interface SubPath {
  readonly vertices: readonly Vertex[]
  readonly closed: boolean
}

/**
 * A path's steps as vertex lists. Runs of one point only are left out: they draw nothing. After a close the
 * current point is the start of the run that was closed, as in SVG.
 *
 * @throws RangeError if a step draws before the first move
 */
export function subPaths(steps: readonly PathStep[]): SubPath[] {
  const runs: SubPath[] = []
  let current: { x: number; y: number; bulge?: number }[] = []
  const end = (closed: boolean): void => {
    if (current.length > 1) runs.push({ vertices: current, closed })
    current = current.slice(0, closed ? 1 : 0).map(({ x, y }) => ({ x, y }))
  }
  for (const step of steps) {
    if (step.to === 'close') {
      end(true)
    } else if (step.to === 'move') {
      end(false)
      current = [{ x: step.x, y: step.y }]
    } else {
      const last = current.at(-1)
      if (last === undefined) throw new RangeError('A path must start with a move')
      if (step.to === 'arc' && step.bulge !== 0) last.bulge = step.bulge
      current.push({ x: step.x, y: step.y })
    }
  }
  end(false)
  return runs.map(withoutRepeatedStart)
}

/** A closed run that also returns to its start by a step: the last vertex repeats the first and is dropped. */
function withoutRepeatedStart(run: SubPath): SubPath {
  const first = run.vertices[0]!
  const last = run.vertices.at(-1)!
  const repeated = run.closed && run.vertices.length > 2 && first.x === last.x && first.y === last.y
  return repeated ? { vertices: run.vertices.slice(0, -1), closed: true } : run
}
