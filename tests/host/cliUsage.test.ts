/** Bad usage and bad files: one line that says what is wrong and where, exit code 2, never a stack trace. */
import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { CLI, EXAMPLE, evenswing, exampleJob, expectRefused } from './cli.ts'
import { environmentWithout, ROOT, runProgram, scratchFolder } from './helpers.ts'

describe('usage', () => {
  test.each([
    [[], /a command is missing/],
    [['chek'], /there is no command "chek"/],
    [['__proto__'], /there is no command/],
    [['toString'], /there is no command/],
    [['che\nck'], /there is no command/],
    [['check'], /JOB is missing/],
    [['check', EXAMPLE, 'more'], /one word too many/],
    [['check', EXAMPLE, '--nothing'], /there is no option --nothing/],
    [['check', EXAMPLE, '-x'], /there is no option -x/],
    [['check', EXAMPLE, '--setup'], /--setup needs a value/],
    [['check', EXAMPLE, '--json=yes'], /--json takes no value/],
    [['check', EXAMPLE, '--setup', 'op99'], /setups: there is no setup "op99"; there are op10/],
    [['check', ''], /name is empty/],
    [['sheet', EXAMPLE], /--out DIR is missing/],
    [['sheet', EXAMPLE, '--out', 'x', '--format', 'bmp'], /no format "bmp"; there are svg, pdf, dxf, png/],
    [['sheet', EXAMPLE, '--out', 'x', '--format', ''], /no format ""/],
    [['plan', EXAMPLE, '--apply', '0', '--out', 'x'], /"0" is not a whole number from 1/],
    [['plan', EXAMPLE, '--apply', '1.5', '--out', 'x'], /not a whole number/],
    [['plan', EXAMPLE, '--apply', '1'], /needs --out/],
    [['plan', EXAMPLE, '--out', 'x'], /goes with --apply/],
    [['trim', EXAMPLE], /--readings FILE is missing/],
    [['trim', EXAMPLE, '--readings', 'none.json'], /none.json: there is no such file/],
    [['import', 'x.stl'], /--out JOB is missing/],
    [['import', 'x.stl', '--out', ''], /empty/],
    [['hardware', '--material', 'cheese'], /no material "?cheese/],
    [['find'], /SUM is missing/],
    [['find', 'crank link'], /"crank link" is no check sum/],
    [['find', 'V8MRW-R2PX0', '--in', 'nowhere'], /nowhere/],
    [['demo', 'more'], /one word too many/],
  ] as [string[], RegExp][])('%j', async (args, why) => {
    expectRefused(await evenswing(args, { cwd: scratchFolder() }), /^evenswing: /, why)
  })

  test.each([['--help'], ['-h'], ['help']])('%s lists the commands', async (word) => {
    const { code, out, err } = await evenswing([word])
    expect([code, err]).toEqual([0, ''])
    for (const command of [
      'check',
      'plan',
      'trim',
      'sheet',
      'import',
      'find',
      'validate',
      'hardware',
      'demo',
    ])
      expect(out).toContain(`  ${command} `.trimEnd())
  })

  test.each(['check', 'plan', 'trim', 'sheet', 'import', 'find', 'validate', 'hardware', 'demo'])(
    '%s --help asks for nothing else',
    async (command) => {
      const { code, out, err } = await evenswing([command, '--help'])
      expect([code, err]).toEqual([0, ''])
      expect(out).toContain(`evenswing -- ${command}`)
    },
  )
})

describe('files', () => {
  const folder = () => {
    const path = scratchFolder()
    const file = (content: string | Uint8Array, name = 'job.evenswing.json') => {
      writeFileSync(join(path, name), content)
      return name
    }
    return { path, file, run: (...args: string[]) => evenswing(args, { cwd: path }) }
  }
  const bad = (change: (job: ReturnType<typeof exampleJob>) => void) => {
    const job = exampleJob()
    change(job)
    return JSON.stringify(job, null, 2)
  }

  test('missing', async () => {
    const { run } = folder()
    expectRefused(await run('check', 'none.evenswing.json'), 'none.evenswing.json: there is no such file')
  })

  test('a folder', async () => {
    const { path, run } = folder()
    mkdirSync(join(path, 'dir'))
    expectRefused(await run('check', 'dir'), 'dir: is a folder')
  })

  test('a file used as a folder', async () => {
    const { file, run } = folder()
    expectRefused(await run('check', join(file('{}'), 'x')), /x: a part of its path is not a folder/)
  })

  test.skipIf(process.platform === 'win32')(
    'a pipe nobody writes to, a device, a circle of links',
    async () => {
      const { path, run } = folder()
      await runProgram('mkfifo', [join(path, 'pipe')])
      expectRefused(await run('check', 'pipe'), 'pipe: is not a plain file')
      expectRefused(await run('check', '/dev/zero'), '/dev/zero: is not a plain file')
      symlinkSync('b', join(path, 'a'))
      symlinkSync('a', join(path, 'b'))
      expectRefused(await run('check', 'a'), 'a: its links lead in a circle')
    },
  )

  test('not UTF-8', async () => {
    const { file, run } = folder()
    const text = Buffer.concat([Buffer.from('{\n"title": "'), Buffer.from([0xe4, 0xf6]), Buffer.from('"}')])
    expectRefused(await run('check', file(text)), /job\.evenswing\.json: line 2: is not UTF-8/)
  })

  test('too large', async () => {
    const { path, file, run } = folder()
    truncateSync(join(path, file('{}')), 65 * 1024 * 1024)
    expectRefused(
      await run('check', 'job.evenswing.json'),
      'job.evenswing.json: is too large (65.0 MB; the limit is 64.0 MB)',
    )
  })

  test.each([
    ['', /job\.evenswing\.json: .*ends too early/],
    ['{"format": "evenswing-job",\n  "version": 1,\n  oops}', /line 3 column 3/],
    ['{"a": 1', /job\.evenswing\.json: /],
    ['[]', /an object is wanted/],
    ['null', /an object is wanted/],
    ['{"format":"other"}', /format: is not "evenswing-job"/],
    ['{"format":"evenswing-job","version":99}', /version: 99 is newer than this program knows/],
    [`${'['.repeat(200_000)}`, /job\.evenswing\.json/],
    ['{"format":"evenswing-job","version":1,"x\\u001b[31m\\n":2}', /\(and \d+ more faults\)/],
  ])('bad JSON or no job: %.40j', async (text, why) => {
    const { file, run } = folder()
    expectRefused(await run('check', file(text)), why)
  })

  test('one fault is named with its place; of several, the first says how many more', async () => {
    const { file, run } = folder()
    const one = bad((job) => (job.plate.diameter = -300))
    const first = await run('check', file(one))
    expectRefused(first, /: job\.evenswing\.json: plate\.diameter: must be more than 0, but is -300\n$/)
    const three = bad((job) => {
      job.plate.diameter = -300
      job.lathe.swingOverBed = 'wide'
      job.setups[0].packing = null
    })
    expectRefused(await run('check', file(three)), /\(and 2 more faults\)\n$/)
    for (const args of [['plan'], ['sheet', '--out', 'x']])
      expectRefused(await run(...args, 'job.evenswing.json'), /more faults/)
  })

  test('validate lists every fault, one a line', async () => {
    const { file, run } = folder()
    const text = bad((job) => {
      job.plate.diameter = -300
      job.lathe.swingOverBed = 'wide'
      job.setups[0].packing = null
    })
    const ended = await run('validate', file(text))
    expectRefused(ended, /\(and 2 more faults\)\n$/)
    const lines = ended.out.trimEnd().split('\n')
    expect(lines).toHaveLength(3)
    for (const place of ['plate.diameter', 'lathe.swingOverBed', 'setups[0].packing'])
      expect(lines.some((line) => line.startsWith(`job.evenswing.json: ${place}: `))).toBe(true)
    const json = await run('validate', 'job.evenswing.json', '--json')
    expect(json.code).toBe(2)
    expect(JSON.parse(json.out)).toMatchObject({
      valid: false,
      faults: [{ path: expect.any(String) }, {}, {}],
    })
  })

  test('validate of a good job', async () => {
    const plain = await evenswing(['validate', EXAMPLE])
    expect([plain.code, plain.out, plain.err]).toEqual([0, `${EXAMPLE}: no faults\n`, ''])
    const json = await evenswing(['validate', EXAMPLE, '--json'])
    expect([json.code, JSON.parse(json.out)]).toEqual([0, { valid: true, faults: [] }])
  })

  test('text in a job cannot steer the terminal or add lines', async () => {
    const { file, run } = folder()
    const text = bad((job) => {
      job.title = 'two\nlines \u001b[31mred\u202e'
      job.setups[0].title = '\u0007'
    })
    const { out } = await run('check', file(text))
    // eslint-disable-next-line no-control-regex
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/)
    expect(out.split('\n').slice(0, 3).join('\n')).toContain('two lines \\u001b[31mred\\u202e')
    const bent = bad((job) => (job.setups[0].cuts[0].bore = 'a\n\u001b[2J'))
    expectRefused(await run('check', file(bent)), 'setups[0].cuts[0].bore')
  })
})

describe('where it is run from', () => {
  test('npm run from another folder takes relative paths from where the user stood', async () => {
    const cwd = scratchFolder()
    writeFileSync(join(cwd, 'here.evenswing.json'), JSON.stringify(exampleJob()))
    const env = environmentWithout('npm_config_local_prefix', 'INIT_CWD', 'npm_lifecycle_event')
    const npm = (...args: string[]) =>
      runProgram('npm', ['--prefix', ROOT, 'run', '--silent', 'evenswing', '--', ...args], { cwd, env })
    const good = await npm('validate', 'here.evenswing.json')
    expect([good.code, good.out, good.err]).toEqual([0, 'here.evenswing.json: no faults\n', ''])
    expectRefused(await npm('check', 'gone.evenswing.json'), 'gone.evenswing.json: there is no such file')
  })

  test('a reader that stops reading leaves no trace behind', async () => {
    const { code, err } = await runProgram('bash', [
      '-c',
      `set -o pipefail; "$0" "$1" check "$2" --json | head -c 10 > /dev/null; exit "\${PIPESTATUS[0]}"`,
      process.execPath,
      CLI,
      EXAMPLE,
    ])
    expect([code, err]).toEqual([0, ''])
  })
})
