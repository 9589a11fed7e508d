/** The command line as a user runs it. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect } from 'vitest'
import { ROOT, runProgram, type Ended, type RunOptions } from './helpers.ts'

export const EXAMPLE = join(ROOT, 'examples/flat-link.evenswing')

/** A job as loose data, to be spoilt or changed. */
// eslint-disable-next-line @typescript-eslint/no-explicit-any
export const exampleJob = (): any => JSON.parse(readFileSync(EXAMPLE, 'utf8'))

export const CLI = join(ROOT, 'scripts/evenswing.mjs')

export const evenswing = (args: readonly string[], options: RunOptions = {}): Promise<Ended> =>
  runProgram(process.execPath, [CLI, ...args], options)

/** Refused: exit code 2, exactly one line on stderr, nothing of a stack trace anywhere. */
export function expectRefused(ended: Ended, ...words: readonly (string | RegExp)[]): void {
  expect(ended.code).toBe(2)
  expect(ended.err.endsWith('\n')).toBe(true)
  expect(ended.err.trimEnd().split('\n')).toHaveLength(1)
  // eslint-disable-next-line no-control-regex
  expect(ended.err.trimEnd()).not.toMatch(/[\u0000-\u001f\u007f]/)
  expect(ended.out + ended.err).not.toMatch(/\n\s+at |\.ts:\d+|node:internal/)
  for (const word of words)
    expect(ended.err).toMatch(typeof word === 'string' ? new RegExp(escape(word)) : word)
}

const escape = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
