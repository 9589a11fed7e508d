/** Files that hold far more than a job: refused in words, within a small part of a machine's memory. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { figure } from './figure.ts'
import { bundled, runProgram, scratchFolder } from './helpers.ts'

const READER = fileURLToPath(new URL('./hugeJob.ts', import.meta.url))
const SIZE = 60_000_000
/** MB, the program itself among it. */
const MEMORY = 300
const HEAD = '{"format":"evenswing-job","version":4,"notes":'
const MANY = /more than 3 million values/

const CASES: readonly (readonly [string, () => string | Buffer, RegExp])[] = [
  ['zero bytes', () => Buffer.alloc(SIZE), /is not JSON/],
  ['one number of zeros', () => '0'.repeat(SIZE), /is not JSON/],
  ['a list of zeros', () => `[${'0,'.repeat(SIZE / 2 - 1)}0]`, MANY],
  ['a job with a list of zeros', () => `${HEAD}[${'0,'.repeat(SIZE / 2 - 40)}0]}`, MANY],
  ['empty lists', () => `[${'[],'.repeat(SIZE / 3 - 1)}[]]`, MANY],
  ['lists in lists', () => '['.repeat(SIZE), MANY],
]

test('60 MB of zeros in any form', async () => {
  const program = await bundled(READER)
  const path = join(scratchFolder(), 'huge.evenswing')
  for (const [name, make, words] of CASES) {
    writeFileSync(path, make())
    const { out, err } = await runProgram(process.execPath, [program, path])
    expect([name, err]).toEqual([name, ''])
    const { fault, memory } = JSON.parse(out) as { fault: string; memory: number }
    expect(fault, name).toMatch(words)
    figure(`60 MB of ${name} as a job: refused with ${Math.round(memory)} MB of memory`)
    expect(memory, name).toBeLessThan(MEMORY)
  }
})
