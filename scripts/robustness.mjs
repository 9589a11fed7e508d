// The robustness figures in one run: npm run robustness [-- --kills N --files N --minutes N --saves N --only WORD].
import { spawn } from 'node:child_process'
import { parseArgs } from 'node:util'

const { values } = parseArgs({
  options: {
    // Processes killed in the middle of a save.
    kills: { type: 'string', default: '500' },
    // Hostile files for each format.
    files: { type: 'string', default: '10000' },
    // Two hosts at work on one book.
    minutes: { type: 'string', default: '10' },
    // Saves on a drive that fails.
    saves: { type: 'string', default: '5000' },
    // Only the steps with this word in their name.
    only: { type: 'string', default: '' },
  },
})
for (const [name, value] of Object.entries(values))
  if (name !== 'only' && !(Number(value) > 0)) {
    console.error(`--${name} must be a number above nought`)
    process.exit(2)
  }

const vitest = (project, ...files) => [
  'npx',
  ['vitest', 'run', '--project', project, '--testTimeout', '0', '--reporter', 'verbose', ...files],
]
const fuzz = (name, file) => ({
  name: `${name}: ${values.files} hostile files of each format`,
  run: vitest('core', `tests/robustness/${file}`),
  env: { EVENSWING_FUZZ: values.files },
})
const STEPS = [
  {
    name: `saves: ${values.kills} kills`,
    run: vitest('host', 'tests/host/saving.test.ts', '-t', 'killed at any step'),
    env: { EVENSWING_KILLS: values.kills },
  },
  fuzz('jobs', 'job.test.ts'),
  fuzz('libraries', 'library.test.ts'),
  fuzz('pictures', 'picture.test.ts'),
  fuzz('imports (DXF, SVG, CSV, STL)', 'import.test.ts'),
  {
    name: `company: two hosts on one book for ${values.minutes} min`,
    run: vitest('host', 'tests/host/company.test.ts'),
    env: { EVENSWING_COMPANY_SECONDS: String(Number(values.minutes) * 60) },
  },
  {
    name: `drives that fail: ${values.saves} saves`,
    run: vitest('host', 'tests/host/faultyDrive.test.ts'),
    env: { EVENSWING_FAULTY_SAVES: values.saves },
  },
  { name: 'huge jobs: 60 MB of zeros', run: vitest('host', 'tests/host/hugeJobs.test.ts'), env: {} },
  { name: 'many bodies', run: ['npx', ['tsx', 'bench/manyBodies.ts']], env: {} },
]

/** Runs one step; its figures go out as they come, all else only where it fails. */
function take({ run: [command, args], env }) {
  return new Promise((done) => {
    const child = spawn(command, args, {
      env: { EVENSWING_SEED: 'any', ...process.env, ...env, EVENSWING_FIGURES: '1', NO_COLOR: '1' },
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    let output = ''
    const hear = (text) => {
      output += text
      for (const [, figure] of text.matchAll(/figure: (.*)/g)) console.log(`   ${figure}`)
    }
    child.stdout.setEncoding('utf8').on('data', hear)
    child.stderr.setEncoding('utf8').on('data', hear)
    child.once('error', (error) => done({ held: false, output: String(error) }))
    child.once('close', (code) => done({ held: code === 0, output }))
  })
}

const steps = STEPS.filter(({ name }) => name.includes(values.only))
if (steps.length === 0) {
  console.error(`No step has "${values.only}" in its name`)
  process.exit(2)
}
let failed = 0
for (const step of steps) {
  const begun = performance.now()
  console.log(`== ${step.name}`)
  const { held, output } = await take(step)
  if (!held) {
    failed++
    console.log(output.split('\n').slice(-60).join('\n'))
  }
  console.log(`   ${held ? 'held' : 'FAILED'}, ${((performance.now() - begun) / 1000).toFixed(0)} s`)
}
console.log(failed === 0 ? '\nAll held.' : `\n${failed} of ${steps.length} failed.`)
process.exit(failed === 0 ? 0 : 1)
