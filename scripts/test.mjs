// The one test command: set-up, lint, types, unused code, build, and every test. See DEVELOPERS.md.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync } from 'node:fs'

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

function step(name, command, args) {
  const start = Date.now()
  console.log(`\n== ${name}`)
  const result = spawnSync(command, args, { stdio: 'inherit' })
  if (result.status !== 0) {
    console.error(`\n${name} failed.`)
    process.exit(1)
  }
  console.log(`== ${name}: ${((Date.now() - start) / 1000).toFixed(1)} s`)
}

setUp()
mkdirSync('out', { recursive: true })
step('lint', 'npx', ['eslint', '.', '--max-warnings', '0'])
step('format', 'npx', ['prettier', '--check', '--log-level', 'warn', '.'])
step('types', 'npx', ['tsc', '--noEmit'])
step('svelte types', 'npx', [
  'svelte-check',
  '--tsconfig',
  'tsconfig.json',
  '--fail-on-warnings',
  '--output',
  'human',
])
step('unused code', 'npx', ['knip'])
step('build', 'npx', ['electron-vite', 'build', '--logLevel', 'warn'])

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
