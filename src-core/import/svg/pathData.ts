/** The `d` of a path as runs of edges. Strict: a fault anywhere drops the whole path, with its place. */
import type { Point } from '../../geometry/types.ts'
import type { Affine } from '../../geometry/affine.ts'
import type { Fit } from '../fitArcs.ts'
import { CAPS } from '../refusal.ts'
import { Run } from './run.ts'

export interface PathRun {
  readonly run: Run
  readonly closed: boolean
}

const SEPARATOR = /[\s,]*/y
const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y
const FLAG = /[01]/y
/** Numbers a command takes at a time; f marks a flag. */
const TAKES: Readonly<Record<string, string>> = {
  M: 'nn',
  L: 'nn',
  H: 'n',
  V: 'n',
  C: 'nnnnnn',
  S: 'nnnn',
  Q: 'nnnn',
  T: 'nn',
  A: 'nnnffnn',
  Z: '',
}

/** Steps of work for a command. */
const COMMAND_COST = 30

/** The runs of a path's `d`, each point mapped by `m`; or what is wrong in it, with its place. */
export function readPath(d: string, m: Affine, fit: Fit): { runs: PathRun[] } | { fault: string } {
  let at = 0
  const skip = () => {
    SEPARATOR.lastIndex = at
    SEPARATOR.exec(d)
    at = SEPARATOR.lastIndex
  }
  const take = (pattern: RegExp): number | null => {
    pattern.lastIndex = at
    const found = pattern.exec(d)?.[0]
    if (found === undefined) return null
    const value = Number(found)
    if (!(Math.abs(value) <= CAPS.number)) return null
    at += found.length
    skip()
    return value
  }
  const pen = new Pen(m, fit)
  skip()
  while (at < d.length) {
    const letter = d[at]!
    const takes = /[MLHVCSQTAZ]/i.test(letter) ? TAKES[letter.toUpperCase()]! : null
    if (takes === null) return { fault: `path data, character ${at + 1}: a command is expected` }
    if (!pen.started && letter.toUpperCase() !== 'M')
      return { fault: `path data, character ${at + 1}: it must begin with M` }
    at++
    skip()
    let repeats = 0
    do {
      const numbers: number[] = []
      for (const kind of takes) {
        const value = take(kind === 'f' ? FLAG : NUMBER)
        if (value === null)
          return {
            fault: `path data, character ${at + 1}: ${kind === 'f' ? '0 or 1' : 'a number'} is expected`,
          }
        numbers.push(value)
      }
      // Further pairs after a move are lines.
      const command = repeats > 0 && letter === 'M' ? 'L' : repeats > 0 && letter === 'm' ? 'l' : letter
      pen.draw(command, numbers)
      repeats++
    } while (takes !== '' && /[\d.+-]/.test(d[at] ?? ''))
  }
  return { runs: pen.finish() }
}

class Pen {
  started = false
  private at: Point = { x: 0, y: 0 }
  private run: Run | null = null
  private readonly runs: PathRun[] = []
  private lastCubic: Point | null = null
  private lastQuadratic: Point | null = null
  private readonly m: Affine
  private readonly fit: Fit

  constructor(m: Affine, fit: Fit) {
    this.m = m
    this.fit = fit
  }

  finish(): PathRun[] {
    this.end(false)
    return this.runs
  }

  private end(closed: boolean): void {
    if (this.run && this.run.vertices.length > 1) this.runs.push({ run: this.run, closed })
    this.run = null
  }

  draw(letter: string, n: readonly number[]): void {
    this.fit.budget.work(COMMAND_COST, this.fit.place)
    const relative = letter === letter.toLowerCase()
    const base = relative ? this.at : { x: 0, y: 0 }
    const p = (i: number): Point => ({ x: base.x + n[i]!, y: base.y + n[i + 1]! })
    const command = letter.toUpperCase()
    const cubic = this.lastCubic
    const quadratic = this.lastQuadratic
    this.lastCubic = null
    this.lastQuadratic = null
    if (command === 'M') {
      this.end(false)
      this.fit.budget.element(this.fit.place)
      this.at = p(0)
      this.started = true
      return
    }
    if (command === 'Z') {
      if (this.run) this.at = this.run.start
      this.end(true)
      return
    }
    const run = (this.run ??= new Run(this.at, this.m, this.fit))
    const mirrored = (c: Point | null): Point =>
      c ? { x: 2 * this.at.x - c.x, y: 2 * this.at.y - c.y } : this.at
    if (command === 'L') run.lineTo(p(0))
    else if (command === 'H') run.lineTo({ x: base.x + n[0]!, y: this.at.y })
    else if (command === 'V') run.lineTo({ x: this.at.x, y: base.y + n[0]! })
    else if (command === 'A') run.arcTo(n[0]!, n[1]!, n[2]!, n[3] === 1, n[4] === 1, p(5))
    else if (command === 'C' || command === 'S') {
      const first = command === 'C' ? p(0) : mirrored(cubic)
      const second = command === 'C' ? p(2) : p(0)
      run.cubicTo(first, second, p(command === 'C' ? 4 : 2))
      this.lastCubic = second
    } else {
      const control = command === 'Q' ? p(0) : mirrored(quadratic)
      run.quadraticTo(control, p(command === 'Q' ? 2 : 0))
      this.lastQuadratic = control
    }
    this.at = run.pen
  }
}
