/** `import`: drawings and meshes become jobs that can be checked. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { isPrism } from '../../src-core/job/schema.ts'
import { SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { evenswing, expectRefused } from './cli.ts'
import { jobText, scratchFolder } from './helpers.ts'

/** 100 × 60 mm with a hole of 30 mm at (40, 40). */
const SVG = `<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="80mm" viewBox="0 0 120 80">
  <path d="M10 10 H110 V70 H10 Z"/><circle cx="40" cy="40" r="15"/><text x="1" y="2">note</text>
</svg>`

/** A closed tetrahedron, 30 mm along each axis, its corner `at` along x. */
const tetrahedron = (at: number): string[] =>
  [
    [
      [0, 0, 0],
      [0, 30, 0],
      [30, 0, 0],
    ],
    [
      [0, 0, 0],
      [30, 0, 0],
      [0, 0, 30],
    ],
    [
      [0, 0, 0],
      [0, 0, 30],
      [0, 30, 0],
    ],
    [
      [30, 0, 0],
      [0, 30, 0],
      [0, 0, 30],
    ],
  ].map((corners) => {
    const vertices = corners.map(([x, y, z]) => `vertex ${x! + at} ${y} ${z}`)
    return `facet normal 0 0 0\nouter loop\n${vertices.join('\n')}\nendloop\nendfacet`
  })

const stl = (facets: readonly string[]) => `solid t\n${facets.join('\n')}\nendsolid t\n`

function folderWith(name: string, content: string) {
  const cwd = scratchFolder()
  writeFileSync(join(cwd, name), content)
  const job = () => {
    const parsed = parseJob(readFileSync(join(cwd, 'new.evenswing.json'), 'utf8'))
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.faults))
    return parsed.job
  }
  return {
    cwd,
    job,
    run: (...args: string[]) => evenswing(['import', name, '--out', 'new.evenswing.json', ...args], { cwd }),
  }
}

test('an SVG becomes a part on the axis of its round hole, with a word on what was assumed and left out', async () => {
  const { cwd, job, run } = folderWith('plate.svg', SVG)
  const { code, out, err } = await run()
  expect([code, err]).toEqual([0, ''])
  expect(out).toContain('new.evenswing.json: 1 body')
  expect(out).toContain('20 mm was taken')
  expect(out).toMatch(/Left out: 1 text/)
  expect(readdirSync(cwd).sort()).toEqual(['new.evenswing.json', 'plate.svg'])
  const { part, setups } = job()
  expect(part.bodies).toMatchObject([{ thickness: 20, holes: [expect.any(Array)] }])
  const centre = setups[0]!.centre as { x: number; y: number }
  const [body] = part.bodies
  const left = Math.min(...(body && isPrism(body) ? body.outline : []).map((v) => v.x))
  expect(centre.x - left).toBeCloseTo(30, 6)
  const check = await evenswing(['check', 'new.evenswing.json', '--json'], { cwd })
  expect(JSON.parse(check.out).part.area_mm2).toBeCloseTo(6000 - Math.PI * 225, 3)
})

test('--thickness and --unit are taken', async () => {
  const { job, run } = folderWith('solid.stl', stl(tetrahedron(0)))
  const mm = await run()
  expect(mm.code).toBe(0)
  expect(mm.out).toContain('states no unit')
  const inch = await run('--unit', 'in', '--json')
  expect(inch.code).toBe(0)
  const report = JSON.parse(inch.out)
  expect(report).toMatchObject({ job: 'new.evenswing.json', kind: 'stl', unit: 'in', bodies: 1 })
  expect(report.part.volume_mm3).toBeCloseTo((30 * 25.4) ** 3 / 6, -1)
  expect(JSON.stringify(report.notes)).not.toContain('states no unit')
  expect(job().part.bodies).toHaveLength(1)
  const drawing = folderWith('plate.svg', SVG)
  expect((await drawing.run('--thickness', '7.5')).code).toBe(0)
  expect(drawing.job().part.bodies).toMatchObject([{ thickness: 7.5 }])
})

test.each([
  ['x.svg', '<svg', /x\.svg: /],
  ['x.dxf', 'nonsense', /x\.dxf: line 1: /],
  ['x.stl', '', /x\.stl: byte 0: the file is empty/],
  ['x.stl', stl([...tetrahedron(0), ...tetrahedron(90).slice(1)]), /x\.stl: the surface is open at 3 edges/],
  ['x.step', 'ISO-10303-21;', /x\.step: the name: only dxf, svg, csv, txt, stl files/],
  [
    'x.svg',
    '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0 L10 10"/></svg>',
    /x\.svg: no closed outline/,
  ],
])('%s with %.20j is refused with its place and reason', async (name, content, why) => {
  const { cwd, run } = folderWith(name, content)
  expectRefused(await run(), why)
  expect(existsSync(join(cwd, 'new.evenswing.json'))).toBe(false)
})

test.each([
  [['--unit', 'parsec'], /--unit: "parsec" is none of mm, cm, m, in, ft/],
  [['--thickness', '0'], /--thickness: "0" is not a length/],
  [['--thickness', '-3'], /--thickness/],
  [['--thickness', '1e3'], /--thickness: "1e3" is not a length/],
] as [string[], RegExp][])('%j is refused', async (args, why) => {
  expectRefused(await folderWith('plate.svg', SVG).run(...args), why)
})

test('where it cannot be written, that is said with the place', async () => {
  const { cwd } = folderWith('plate.svg', SVG)
  mkdirSync(join(cwd, 'dir'))
  const to = (out: string) => evenswing(['import', 'plate.svg', '--out', out], { cwd })
  expectRefused(await to('none/new.json'), 'none/new.json: its folder does not exist')
  expectRefused(await to('dir'), 'dir: is a folder')
  expectRefused(await to('plate.svg/new.json'), 'plate.svg/new.json: a part of its path is not a folder')
})

test('what a job file held before is kept beside it', async () => {
  const { cwd, run } = folderWith('plate.svg', SVG)
  writeFileSync(join(cwd, 'new.evenswing.json'), jobText('before'))
  expect((await run()).code).toBe(0)
  const kept = join(cwd, SIDE_FOLDER, 'new.evenswing.json')
  expect(readdirSync(kept).map((n) => readFileSync(join(kept, n), 'utf8'))).toEqual([jobText('before')])
})
