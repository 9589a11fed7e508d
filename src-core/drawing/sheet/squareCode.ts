/** A text as a square code (QR, ISO/IEC 18004) that a scanner or a telephone reads. Sheet mm. */
import { encode } from 'uqr'
import type { Point } from '../../geometry/types.ts'
import type { PathPrimitive, PathStep } from '../model/model.ts'

/** Clear modules that a reader wants around it (ISO/IEC 18004). */
const QUIET = 4

/**
 * The code within a square of `side` mm whose lower left corner is `at`, its clear border with it. A quarter of it may be
 * soiled (error correction Q).
 */
export function squareCode(content: string, at: Point, side: number): PathPrimitive {
  const { data, size } = encode(content, { ecc: 'Q', border: 0 })
  const module = side / (size + 2 * QUIET)
  const x = (column: number) => at.x + (QUIET + column) * module
  const y = (row: number) => at.y + (QUIET + size - row) * module
  const steps = outlines(data).flatMap((loop): PathStep[] => [
    ...loop.map(([column, row], i): PathStep => ({ to: i === 0 ? 'move' : 'line', x: x(column), y: y(row) })),
    { to: 'close' },
  ])
  return { kind: 'path', layer: 'text', steps, fill: 'solid' }
}

type Corner = readonly [column: number, row: number]

/**
 * Loops round the dark modules, corners only: one shape for all, for between shapes that touch a printer leaves light
 * seams. Holes are loops of their own.
 */
function outlines(dark: readonly (readonly boolean[])[]): Corner[][] {
  const isDark = (column: number, row: number) => dark[row]?.[column] ?? false
  const key = ([column, row]: Corner) => `${column} ${row}`
  /** Sides of dark modules on light ones, by where they begin, the dark at their right. */
  const sides = new Map<string, Corner[]>()
  const side = (from: Corner, to: Corner) => {
    const at = sides.get(key(from))
    if (at) at.push(to)
    else sides.set(key(from), [to])
  }
  dark.forEach((cells, row) => {
    cells.forEach((isOn, column) => {
      if (!isOn) return
      if (!isDark(column, row - 1)) side([column, row], [column + 1, row])
      if (!isDark(column + 1, row)) side([column + 1, row], [column + 1, row + 1])
      if (!isDark(column, row + 1)) side([column + 1, row + 1], [column, row + 1])
      if (!isDark(column - 1, row)) side([column, row + 1], [column, row])
    })
  })
  const loops: Corner[][] = []
  for (const start of sides.keys()) {
    while ((sides.get(start)?.length ?? 0) > 0) {
      const loop: Corner[] = []
      let at = start
      for (let to = sides.get(at)!.pop(); to; to = sides.get(at)?.pop()) {
        const [a, b] = [loop.at(-2), loop.at(-1)]
        const goesOn = a && b && (a[0] === b[0]) === (b[0] === to[0]) && (a[1] === b[1]) === (b[1] === to[1])
        if (goesOn) loop[loop.length - 1] = to
        else loop.push(to)
        at = key(to)
        if (at === start) break
      }
      loops.push(loop)
    }
  }
  return loops
}
