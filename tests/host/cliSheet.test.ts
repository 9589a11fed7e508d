/** `sheet` and `demo`: drawings on disk. */
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { EXAMPLE, evenswing, exampleJob, expectRefused } from './cli.ts'
import { ROOT, scratchFolder } from './helpers.ts'

const STARTS = { svg: '<?xml', pdf: '%PDF-', dxf: '0\n', png: '\u0089PNG' } as const
const startOf = (path: string) => readFileSync(path, 'latin1').trimStart().slice(0, 5)

/** The lists run onto further sheets; a format without pages has a file for each. */
const filesOf = (setup: string, sheets: number, formats: readonly (keyof typeof STARTS)[]): string[] =>
  formats.flatMap((f) => [
    `EV-0417-${setup}.${f}`,
    ...Array.from({ length: f === 'pdf' ? 0 : sheets - 1 }, (_, i) => `EV-0417-${setup}-sheet-${i + 2}.${f}`),
  ])

test('every format is written into a new folder, and said where', async () => {
  const cwd = scratchFolder()
  const { code, out, err } = await evenswing(
    ['sheet', EXAMPLE, '--out', 'a/b', '--format', 'svg,pdf,dxf,png'],
    { cwd },
  )
  expect([code, err]).toEqual([0, ''])
  const names = readdirSync(join(cwd, 'a/b')).sort()
  expect(names).toEqual(filesOf('op10', 2, ['dxf', 'pdf', 'png', 'svg']).sort())
  for (const name of names) {
    const format = name.split('.').at(-1) as keyof typeof STARTS
    expect(startOf(join(cwd, 'a/b', name)).startsWith(STARTS[format]), name).toBe(true)
  }
  expect(out.trimEnd().split('\n').sort()).toEqual(names.map((n) => join('a/b', n)))
})

test('without --format it is SVG and PDF; the list may be given in pieces', async () => {
  const cwd = scratchFolder()
  expect((await evenswing(['sheet', EXAMPLE, '--out', 'x'], { cwd })).code).toBe(0)
  expect(readdirSync(join(cwd, 'x')).sort()).toEqual(filesOf('op10', 2, ['pdf', 'svg']).sort())
  const { code, out } = await evenswing(
    [
      'sheet',
      EXAMPLE,
      '--out',
      'y',
      '--format',
      'dxf',
      '--format',
      'SVG,dxf',
      '--setup',
      'op20',
      '--json',
    ].concat('--size', 'A4'),
    { cwd },
  )
  const report = JSON.parse(out)
  expect(code).toBe(report.findings.length > 0 ? 1 : 0)
  expect(report.setup).toBe('op20')
  expect(report.files).toEqual(filesOf('op20', 4, ['dxf', 'svg']).map((n) => join(cwd, 'y', n)))
})

const pages = (path: string) =>
  Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [path], { encoding: 'utf8' }))![1])
const textOf = (path: string) => execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' })

test('--all puts every setup of the job into one PDF, each numbered', async () => {
  const cwd = scratchFolder()
  const job = exampleJob()
  const ids = job.setups.map((s: { id: string }) => s.id)
  expect(ids.length).toBeGreaterThan(1)
  const args = ['sheet', EXAMPLE, '--all', '--out', 'x', '--format', 'pdf,svg', '--json']
  const report = JSON.parse((await evenswing(args, { cwd })).out)
  expect(report.setups).toEqual(ids)
  const names = readdirSync(join(cwd, 'x'))
  expect(names.filter((n) => n.endsWith('.pdf'))).toEqual(['EV-0417.pdf'])
  for (const id of ids) expect(names).toContain(`EV-0417-${id}.svg`)
  const pdf = join(cwd, 'x/EV-0417.pdf')
  expect(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' })).toMatch(/^Title: +EV-0417, all setups$/m)
  expect(pages(pdf)).toBe(names.filter((n) => n.endsWith('.svg')).length)
  for (const i of ids.keys()) expect(textOf(pdf)).toContain(`Setup ${i + 1} of ${ids.length}`)
  expectRefused(await evenswing([...args, '--setup', ids[0]!], { cwd }), 'leave --setup out')
})

test('size, scale, projection and title block: flags before the job before what is chosen', async () => {
  const cwd = scratchFolder()
  const job = exampleJob()
  job.titleBlock = { owner: 'Millbrook Shop', by: 'A. Hand', revision: 'C' }
  job.setups[0]!.sheet = { size: 'A4', scale: 0.2, projection: 'third' }
  writeFileSync(join(cwd, 'job.json'), JSON.stringify(job))
  const sheet = async (...flags: string[]) => {
    await evenswing(['sheet', 'job.json', '--out', 'x', '--format', 'pdf', ...flags], { cwd })
    return textOf(join(cwd, 'x/EV-0417-op10.pdf'))
  }
  const own = await sheet()
  for (const words of ['Millbrook Shop', 'A. Hand', '1:5', 'A4']) expect(own).toContain(words)
  const asked = await sheet('--size', 'a3', '--scale', '1:10', '--by', 'B. Hand', '--revision', 'D')
  for (const words of ['Millbrook Shop', 'B. Hand', '1:10', 'A3']) expect(asked).toContain(words)
  expect(asked).not.toContain('A. Hand')
  for (const [flags, reason] of [
    [['--size', 'A5'], /no sheet "A5"; there are A4, A3/],
    [['--scale', '2'], /"2" is not a scale/],
    [['--scale', '1:0'], /"1:0" is not a scale/],
    [['--projection', 'second'], /no projection "second"/],
  ] as const)
    expectRefused(await evenswing(['sheet', 'job.json', '--out', 'x', ...flags], { cwd }), reason)
})

test('--cards writes one card a step', async () => {
  const cwd = scratchFolder()
  const { code, out, err } = await evenswing(['sheet', EXAMPLE, '--cards', '--out', 'x'], { cwd })
  expect([code, err]).toEqual([0, ''])
  expect(out).toContain('EV-0417-op10-cards.pdf')
  expect(pages(join(cwd, 'x/EV-0417-op10-cards.pdf'))).toBeGreaterThan(10)
  expectRefused(
    await evenswing(['sheet', EXAMPLE, '--cards', '--template', '--out', 'x'], { cwd }),
    /--cards and --template are two things/,
  )
})

test('--template writes the plate at 1:1 over several sheets', async () => {
  const cwd = scratchFolder()
  const sheet = (...more: string[]) =>
    evenswing(['sheet', EXAMPLE, '--template', '--out', 'x', ...more], { cwd })
  expect((await sheet()).code).toBe(0)
  const pdf = join(cwd, 'x/EV-0417-op10-template.pdf')
  expect(pages(pdf)).toBeGreaterThan(1)
  expect(textOf(pdf)).toContain('plate template 1:1')
  const onA4 = pages(pdf)
  await sheet('--size', 'A3')
  expect(pages(pdf)).toBeLessThan(onA4)
  await sheet('--all')
  expect(pages(join(cwd, 'x/EV-0417-template.pdf'))).toBe(exampleJob().setups.length * onA4)
})

test('the same date gives the same bytes', async () => {
  const cwd = scratchFolder()
  const env = { ...process.env, SOURCE_DATE_EPOCH: '1600000000' }
  const sheets = ['one', 'two'].map((out) =>
    evenswing(['sheet', EXAMPLE, '--out', out, '--format', 'svg,pdf,dxf,png'], { cwd, env }),
  )
  for (const { code } of await Promise.all(sheets)) expect(code).toBe(0)
  for (const name of readdirSync(join(cwd, 'one')))
    expect(readFileSync(join(cwd, 'one', name)).equals(readFileSync(join(cwd, 'two', name))), name).toBe(true)
  expect(readFileSync(join(cwd, 'one', 'EV-0417-op10.svg'), 'utf8')).toContain('2020-09-13')
})

test('a sheet is written for a setup that must not run, and that is said', async () => {
  const cwd = scratchFolder()
  const job = exampleJob()
  job.lathe.swingOverBed = 280
  job.lathe.gap = null
  job.partNumber = '../../up: and away'
  writeFileSync(join(cwd, 'job.json'), JSON.stringify(job))
  const { code, err } = await evenswing(['sheet', 'job.json', '--out', 'x', '--format', 'svg'], { cwd })
  expect(code).toBe(1)
  expect(err).toMatch(/^evenswing: the sheet of op10 is written, but STOP: /)
  expect(err.trimEnd().split('\n')).toHaveLength(1)
  expect(readdirSync(cwd).sort()).toEqual(['job.json', 'x'])
  const written = readdirSync(join(cwd, 'x')).sort()
  expect(written).toHaveLength(2)
  expect(written.every((name) => /^[^/]*up[^/]*-op10(-sheet-2)?\.svg$/.test(name))).toBe(true)
})

test('a file in the place of the folder is refused', async () => {
  const cwd = scratchFolder()
  writeFileSync(join(cwd, 'file'), '')
  expectRefused(
    await evenswing(['sheet', EXAMPLE, '--out', 'file'], { cwd }),
    'file: is a file, not a folder',
  )
  expectRefused(
    await evenswing(['sheet', EXAMPLE, '--out', 'file/x'], { cwd }),
    /file\/x: a part of its path is not a folder/,
  )
  expectRefused(await evenswing(['sheet', EXAMPLE, '--out', ''], { cwd }), 'empty')
})

test('demo shows the balance sheet, writes the drawing under the program and says where', async () => {
  const folder = join(ROOT, 'out/demo')
  rmSync(folder, { recursive: true, force: true })
  const cwd = scratchFolder()
  const { code, out, err } = await evenswing(['demo'], { cwd })
  expect([code, err]).toEqual([0, ''])
  expect(out).toContain('Heavy side:')
  const files = [...out.matchAll(/^Drawing: (.+)$/gm)].map((m) => m[1]!)
  expect(files.map((f) => f.slice(-4))).toEqual(['.svg', '.svg', '.pdf'])
  for (const file of files) {
    expect(file.startsWith(folder)).toBe(true)
    expect(existsSync(file) && statSync(file).size).toBeGreaterThan(1000)
  }
  expect(readdirSync(cwd)).toEqual([])
  const json = await evenswing(['demo', '--json'], { cwd })
  expect(JSON.parse(json.out)).toMatchObject({ setup: 'op10', files })
})
