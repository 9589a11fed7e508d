// The one test command: set-up, lint, types, unused code, build, and every test. See DEVELOPERS.md.
import { spawn, spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'

const NEEDS = [
  { package: 'chromium', has: () => existsSync('/usr/bin/chromium'), for: 'interface tests' },
  { package: 'poppler-utils', has: () => runs('pdfinfo', ['-v']), for: 'reading PDF sheets back' },
  {
    package: 'python3-ezdxf',
    has: () => runs('/usr/bin/python3', ['-c', 'import ezdxf']),
    for: 'reading DXF files back',
  },
]

function runs(command, args) {
  return spawnSync(command, args, { stdio: 'ignore' }).status === 0
}

function setUp() {
  const missing = NEEDS.filter((n) => !n.has())
  if (missing.length === 0) return
  const debianRoot = existsSync('/etc/debian_version') && process.getuid?.() === 0
  if (debianRoot) {
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
    spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env })
    spawnSync('apt-get', ['install', '-y', '-qq', ...missing.map((n) => n.package)], {
      stdio: ['ignore', 'ignore', 'inherit'],
      env,
    })
  }
  const still = NEEDS.filter((n) => !n.has())
  for (const n of still) console.error(`Missing: ${n.package} (Debian's name), needed for ${n.for}.`)
  if (still.length > 0) process.exit(1)
}

/** What is looked at before the tests run, as many at a time as there are cores; the slowest first. */
const CHECKS = [
  ['svelte types', 'svelte-check', '--tsconfig', 'tsconfig.json', '--fail-on-warnings', '--output', 'human'],
  ['lint', 'eslint', '.', '--max-warnings', '0'],
  ['format', 'prettier', '--check', '--log-level', 'warn', '.'],
  ['types', 'tsc', '--noEmit'],
  ['build', 'electron-vite', 'build', '--logLevel', 'warn'],
  ['unused code', 'knip'],
]

/** Whether the check passed; what it says is printed in one piece when it is done. */
function check([name, ...command]) {
  const start = Date.now()
  return new Promise((done) => {
    const child = spawn('npx', command, { stdio: ['ignore', 'pipe', 'pipe'] })
    const said = []
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (piece) => said.push(piece))
    child.on('error', (error) => said.push(Buffer.from(String(error))))
    child.on('close', (code) => {
      const seconds = ((Date.now() - start) / 1000).toFixed(1)
      console.log(`== ${name}: ${code === 0 ? 'passed' : 'FAILED'}, ${seconds} s`)
      if (said.length > 0) process.stdout.write(Buffer.concat(said))
      done(code === 0)
    })
  })
}

async function checkAll() {
  const waiting = [...CHECKS]
  let passed = true
  const lane = async () => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift())
      passed = (await check(next)) && passed
  }
  await Promise.all(Array.from({ length: availableParallelism() }, lane))
  return passed
}

setUp()
mkdirSync('out', { recursive: true })
if (!(await checkAll())) process.exit(1)

console.log('\n== tests')
const report = 'out/test-report.json'
const tests = spawnSync(
  'npx',
  ['vitest', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
  { stdio: 'inherit' },
)
const counts = JSON.parse(readFileSync(report, 'utf8'))
const { numPassedTests: passed, numFailedTests: failed, numPendingTests: skipped } = counts
console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`)
process.exit(tests.status === 0 && failed === 0 && passed > 0 ? 0 : 1)
