/** The public workflow, which was not run yet: sound YAML, commands that there are, fixed versions, all three systems. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { ROOT } from './helpers.ts'

const builder = createRequire(createRequire(import.meta.url).resolve('electron-builder/package.json'))
const { load } = builder('js-yaml') as { load: (text: string) => unknown }
const FOLDER = join(ROOT, '.github/workflows')
const text = readFileSync(join(FOLDER, 'ci.yml'), 'utf8')

const env = z.record(z.string(), z.string())
const step = z.union([
  z.strictObject({
    name: z.string().optional(),
    if: z.string().optional(),
    run: z.string(),
    env: env.optional(),
  }),
  z.strictObject({
    name: z.string().optional(),
    uses: z.string(),
    with: z.record(z.string(), z.union([z.string(), z.number()])).optional(),
  }),
])
const job = z.strictObject({
  name: z.string(),
  'runs-on': z.string(),
  container: z.string().optional(),
  'timeout-minutes': z.int().max(60),
  strategy: z
    .strictObject({ 'fail-fast': z.literal(false), matrix: z.strictObject({ os: z.array(z.string()) }) })
    .optional(),
  env: env.optional(),
  steps: z.array(step).min(1),
})
const workflow = z.strictObject({
  name: z.string(),
  on: z.strictObject({
    push: z.strictObject({ branches: z.array(z.string()) }),
    pull_request: z.null(),
    workflow_dispatch: z.null(),
  }),
  permissions: z.strictObject({ contents: z.literal('read') }),
  concurrency: z.strictObject({ group: z.string(), 'cancel-in-progress': z.literal(true) }),
  defaults: z.strictObject({ run: z.strictObject({ shell: z.literal('bash') }) }),
  jobs: z.record(z.string(), job),
})
const { jobs } = workflow.parse(load(text))
const steps = Object.values(jobs).flatMap((j) => j.steps)
const commands = steps
  .flatMap((s) => ('run' in s ? s.run.split('\n') : []))
  .map((c) => c.trim())
  .filter((c) => c !== '')
const packageFile = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>
  engines: { node: string }
}

test('it says that it was not run yet', () => {
  expect(readdirSync(FOLDER)).toEqual(['ci.yml'])
  expect(text.split('\n')[0]).toContain('NOT YET RUN')
})

test('each command is one of the package or of the system', () => {
  const own = commands
    .map((c) => /(?:^|--auto-servernum )npm (?:run )?([\w:]+)/.exec(c)?.[1])
    .filter((c) => c !== undefined)
  for (const name of own) expect(name === 'ci' || name in packageFile.scripts, name).toBe(true)
  expect(new Set(own)).toEqual(new Set(['ci', 'test', 'build', 'test:system', 'package', 'launch:packaged']))
  const others = commands.filter((c) => !/^(xvfb-run --auto-servernum )?npm /.test(c))
  expect(others.filter((c) => !/^(npx install-electron$|sudo (apt-get|sysctl) )/.test(c))).toEqual([])
  const { bin } = JSON.parse(readFileSync(join(ROOT, 'node_modules/electron/package.json'), 'utf8')) as {
    bin: object
  }
  expect(bin).toHaveProperty('install-electron')
})

test('what the commands name is there', () => {
  for (const name of ['test:system', 'launch:packaged'])
    for (const file of packageFile.scripts[name]!.split(' ').filter((word) => word.includes('/')))
      expect(existsSync(join(ROOT, file)), file).toBe(true)
})

test('everything from outside has one fixed version', () => {
  const used = steps.flatMap((s) => ('uses' in s ? [s.uses] : []))
  expect(used.length).toBeGreaterThan(3)
  for (const name of used) expect(name).toMatch(/^actions\/[\w-]+@v\d+\.\d+\.\d+$/)
  const systems = Object.values(jobs).flatMap((j) => j.strategy?.matrix.os ?? [j['runs-on']])
  for (const name of systems) expect(name).toMatch(/^(ubuntu|windows|macos)-\d+(\.\d+)?$/)
  const nodes = [...text.matchAll(/node(?:-version)?: ?(\S+)/g)].map((m) => m[1])
  for (const version of nodes) expect(version).toMatch(/^22\.12\.0(-bookworm)?$/)
  expect(nodes).toHaveLength(2)
})

test('on Linux, Windows and macOS the real window opens, is tested, and its installer is kept', () => {
  const { system } = jobs
  expect(system!.strategy!.matrix.os.map((os) => os.split('-')[0])).toEqual(['ubuntu', 'windows', 'macos'])
  expect(system!.env).toEqual({ EVENSWING_MUST_LAUNCH: '1' })
  expect(packageFile.scripts['test:system']).toContain('tests/host/launch.test.ts')
  const kept = system!.steps.find((s) => 'uses' in s && s.uses.startsWith('actions/upload-artifact'))
  expect(kept).toMatchObject({ with: { 'if-no-files-found': 'error' } })
  const paths = kept && 'with' in kept ? String(kept.with?.['path']).trim().split('\n') : []
  expect(paths).toEqual(['dist/*.AppImage', 'dist/*.tar.gz', 'dist/*.exe', 'dist/*.dmg'])
})
