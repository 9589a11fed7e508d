/** Saving on drives that fail in the middle and take their time. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { figure } from './figure.ts'
import { bundled, runProgram, scratchFolder } from './helpers.ts'
import { isWhole, versionText } from './savingVersions.ts'
import { SEED } from '../helpers/seed.ts'

const SAVE_FAULTY = fileURLToPath(new URL('./saveFaulty.ts', import.meta.url))
const SAVES = Number(process.env['EVENSWING_FAULTY_SAVES'] ?? 150)

interface Count {
  readonly saved: number
  readonly refused: number
  readonly savedYetRefused: number
  readonly read: number
  readonly injected: number
  readonly wrong: readonly string[]
}

test(`whatever fails below, a job is what it was or what was saved, and each fault is said (${SAVES} saves)`, async () => {
  const program = await bundled(SAVE_FAULTY)
  const folder = scratchFolder()
  const path = join(folder, 'job.evenswing')
  writeFileSync(path, versionText(0))
  const ended = await runProgram(process.execPath, [program, path, String(SEED), String(SAVES)])
  expect([ended.code, ended.err], `EVENSWING_SEED=${SEED}`).toEqual([0, ''])
  const count = JSON.parse(ended.out) as Count
  figure(
    `failing and slow drive: ${count.injected} faults in ${SAVES} saves, ${count.saved} saved, ${count.refused} refused in words` +
      ` (${count.savedYetRefused} of them written all the same), ${count.wrong.length} torn or lost`,
  )
  expect(count.wrong, `EVENSWING_SEED=${SEED}`).toEqual([])
  expect(count.injected).toBeGreaterThan(SAVES / 4)
  expect(Math.min(count.saved, count.refused, count.read)).toBeGreaterThan(SAVES / 20)
  expect(readFileSync(path, 'utf8')).toBe(versionText(0))
  const left = readdirSync(join(folder, SIDE_FOLDER), { recursive: true, encoding: 'utf8' })
  expect(left.filter((name) => /\.(tmp|lock)$/.test(name))).toEqual([])
  // A lock that was never taken goes with a save an hour later.
  const kept = readdirSync(folder, { recursive: true, withFileTypes: true })
  for (const file of kept.filter((f) => f.isFile() && !/\.lock\.[\w-]{8}$/.test(f.name)))
    expect(isWhole(readFileSync(join(file.parentPath, file.name), 'utf8')), file.name).toBe(true)
}, 600_000)
