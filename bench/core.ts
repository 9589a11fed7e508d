// Moments of a 10,000-edge ring, a whole analysis, a joint, a large STL, a sheet as PDF.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { analyse } from '../src-core/analysis/analyse.ts'
import { setupSheet } from '../src-core/drawing/sheet/setupSheet.ts'
import { writePdf } from '../src-core/drawing/writers/writePdf.ts'
import { circleRing } from '../src-core/geometry/edges.ts'
import { ringMoments } from '../src-core/geometry/ringMoments.ts'
import type { Ring } from '../src-core/geometry/types.ts'
import { Joint } from '../src-core/holding/joint.ts'
import { centrifugalLoad, cutLoads, weightLoad } from '../src-core/holding/machineLoads.ts'
import { plateSeat } from '../src-core/holding/seat.ts'
import { parseJob } from '../src-core/job/parse.ts'
import type { Box, Job, Prism } from '../src-core/job/schema.ts'
import { addMass, pointMass } from '../src-core/mass/massMoments.ts'
import { readStl } from '../src-core/mesh/stl.ts'
import { meshProperties } from '../src-core/mesh/properties.ts'
import { weld } from '../src-core/mesh/weld.ts'
import { flattenJsPolygon, manifoldArea } from '../tests/helpers/peers.ts'
import { median, times, type BenchRow } from './timing.ts'

export function exampleJob(name: string): Job {
  const result = parseJob(readFileSync(new URL(`../examples/${name}.evenswing`, import.meta.url), 'utf8'))
  if (!result.ok) throw new Error(`${name} does not parse`)
  return result.job
}

/** A wavy ring of straight and arc edges. */
function wavyRing(edges: number): Ring {
  return Array.from({ length: edges }, (_, i) => {
    const a = (2 * Math.PI * i) / edges
    const r = 100 + 8 * Math.sin(9 * a)
    return { x: r * Math.cos(a), y: r * Math.sin(a), bulge: i % 2 === 0 ? 0.01 : 0 }
  })
}

async function momentRows(): Promise<BenchRow[]> {
  const ring = wavyRing(10_000)
  const ours = await median(() => ringMoments([...ring]), 51, 20)
  const flatten = flattenJsPolygon(ring)
  const arcs = await median(
    () => [...flatten.faces].reduce((s, f) => s + (f as { signedArea(): number }).signedArea(), 0),
    15,
  )
  const mesh = await median(() => manifoldArea([ring], 0.01), 9)
  return [
    { name: 'moments of a 10,000-edge ring (area, centre, second moments)', ms: ours },
    { name: '  @flatten-js/core: its area alone', ms: arcs, ratio: `ours ${times(arcs, ours)}` },
    { name: '  manifold-3d: area of the flattened ring', ms: mesh, ratio: `ours ${times(mesh, ours)}` },
  ]
}

/** 20 bodies and 30 pieces: the link with pads on it, and small weights all over the plate. */
function bigJob(): Job {
  const link = exampleJob('flat-link')
  const pads = Array.from({ length: 19 }, (_, i): Prism => ({
    id: `pad${i}`,
    effect: 'adds',
    outline: circleRing({ x: 30 + (i % 7) * 9, y: -18 + Math.floor(i / 7) * 14 }, 7),
    holes: [],
    base: 20,
    thickness: 5 + (i % 3),
  }))
  return filledUp(link, pads, 30, (i) => ({
    at: { x: 128 * Math.cos(i), y: 128 * Math.sin(i) },
    footprint: i % 2 === 0 ? { circle: 12 } : { rect: [14, 9] },
  }))
}

/** A job with more bodies, and pieces of 50 g until there are `pieces` in all. */
function filledUp(
  job: Job,
  pads: readonly Prism[],
  pieces: number,
  placed: (i: number) => Pick<Box, 'at' | 'footprint'>,
): Job {
  const setup = job.setups[0]!
  const extra = Array.from({ length: pieces - setup.hardware.length }, (_, i): Box => ({
    id: `x${i}`,
    kind: 'other',
    mass: 0.05,
    ...placed(i),
    base: 0,
    height: 15,
    fixed: true,
  }))
  return {
    ...job,
    part: { ...job.part, bodies: [...job.part.bodies, ...pads] },
    setups: [{ ...setup, hardware: [...setup.hardware, ...extra] }],
  }
}

async function analysisRows(): Promise<BenchRow[]> {
  const link = exampleJob('flat-link')
  const big = bigJob()
  let turn = 0
  // As in a drag: only the setup changes from call to call.
  const dragged = (job: Job): Job => ({
    ...job,
    setups: job.setups.map((s) => ({ ...s, turn: (turn += 0.01) })),
  })
  const small = await median(() => analyse(dragged(link), 'op10'), 101, 60)
  const large = await median(() => analyse(dragged(big), 'op10'), 101, 60)
  return [
    { name: 'whole analysis, example link (1 body, 8 pieces)', ms: small },
    {
      name: 'whole analysis, 20 bodies and 30 pieces',
      ms: large,
      ratio: `${(large / small).toFixed(1)} × the example`,
    },
  ]
}

/** The bearing block on its angle plate with three pads more, and ten pieces in all: six bodies. */
function shelfJob(): Job {
  const block = exampleJob('bearing-block')
  const pads = Array.from({ length: 3 }, (_, i): Prism => ({
    id: `pad${i}`,
    effect: 'adds',
    outline: circleRing({ x: -14 + 14 * i, y: 30 }, 9),
    holes: [],
    base: 80,
    thickness: 4 + i,
  }))
  return filledUp(block, pads, 10, (i) => ({ at: { x: -60 + 30 * i, y: 150 }, footprint: { circle: 12 } }))
}

/** A part on an angle plate: from nothing, and with a weight slid along its slot as by the hand. */
async function shelfRows(): Promise<BenchRow[]> {
  const job = shelfJob()
  const { id } = job.setups[0]!
  let radius = 150
  const slid = (): Job => ({
    ...job,
    setups: job.setups.map((s) => ({
      ...s,
      hardware: s.hardware.map((h) =>
        h.kind === 'weight' && 'slot' in h.at ? { ...h, at: { ...h.at, radius: (radius += 0.001) } } : h,
      ),
    })),
  })
  const cold = await median(() => analyse(structuredClone(job), id), 41, 10)
  const drag = await median(() => analyse(slid(), id), 101, 30)
  return [
    { name: 'whole analysis on an angle plate (6 bodies, 10 pieces), a weight slid', ms: drag },
    { name: '  the same from nothing', ms: cold, ratio: `${(cold / drag).toFixed(1)} × a weight slid` },
  ]
}

/** A binary STL of a ball with about `wanted` triangles. */
function ballStl(wanted: number): Uint8Array {
  const rings = Math.round(Math.sqrt(wanted / 4))
  const around = 2 * rings
  const at = (i: number, k: number): [number, number, number] => {
    const t = (Math.PI * i) / rings
    const p = (2 * Math.PI * (k % around)) / around
    return [40 * Math.sin(t) * Math.cos(p), 40 * Math.sin(t) * Math.sin(p), 40 * Math.cos(t)]
  }
  const triangles: [number, number, number][][] = []
  for (let i = 0; i < rings; i++)
    for (let k = 0; k < around; k++) {
      if (i > 0) triangles.push([at(i, k), at(i + 1, k), at(i, k + 1)])
      if (i < rings - 1) triangles.push([at(i, k + 1), at(i + 1, k), at(i + 1, k + 1)])
    }
  const bytes = new Uint8Array(84 + 50 * triangles.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(80, triangles.length, true)
  triangles.forEach((t, n) =>
    t.forEach((v, c) => v.forEach((x, d) => view.setFloat32(84 + 50 * n + 12 + 12 * c + 4 * d, x, true))),
  )
  return bytes
}

/** A bracket under six presses in a cut: one search over slips, and the speed at which its factor falls to 2. */
async function jointRows(): Promise<BenchRow[]> {
  const body = addMass(pointMass(6, { x: 40, y: 10, z: 30 }), pointMass(3, { x: -20, y: 30, z: 90 }))
  const presses = Array.from({ length: 6 }, (_, i) => ({
    id: `c${i}`,
    at: { x: 70 * Math.cos(i) + 9 * i, y: 60 * Math.sin(i) },
    force: 4000 + 900 * i,
  }))
  const cut = cutLoads({ tangential: 300, torque: 9000, radius: 25, height: 80 })
  const loads = [centrifugalLoad(body), weightLoad(body), ...cut]
  const joint = new Joint({
    seat: plateSeat(10),
    touching: presses.map((p) => p.at),
    face: 'pads',
    grip: { presses },
    friction: 0.1,
    loadings: [{ name: 'bore', loads }],
  })
  let rpm = 100
  const one = await median(() => joint.at((rpm += 0.01)), 301, 200)
  const fall = await median(() => joint.rpmAtFactor(2), 101, 20)
  return [
    { name: 'joint of six presses in a cut, factor at one speed', ms: one },
    {
      name: 'the same, speed at which it falls to 2',
      ms: fall,
      ratio: `${(fall / one).toFixed(1)} × one search`,
    },
  ]
}

async function meshRows(): Promise<BenchRow[]> {
  const stl = ballStl(200_000)
  let triangles = 0
  const ms = await median(
    () => {
      const read = readStl(stl)
      if (!read.ok) throw new Error('the ball does not read')
      const mesh = weld(read.triangles, 1e-6)
      triangles = mesh.triangles.length / 3
      return meshProperties(mesh)
    },
    5,
    1,
  )
  return [{ name: `STL of ${triangles.toLocaleString('en')} triangles read, welded and integrated`, ms }]
}

async function sheetRows(): Promise<BenchRow[]> {
  const font = (name: string) =>
    new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))
  const fonts = { regular: font('DejaVuSans'), bold: font('DejaVuSans-Bold') }
  const job = exampleJob('flat-link')
  const analysis = analyse(job, 'op10')
  const layout = await median(() => setupSheet(job, 'op10', analysis, { date: '2026-01-01' }), 9)
  const pdf = await median(
    () => writePdf(setupSheet(job, 'op10', analysis, { date: '2026-01-01' }), fonts),
    7,
  )
  return [
    { name: 'setup sheet laid out', ms: layout },
    {
      name: 'setup sheet laid out and written as PDF',
      ms: pdf,
      ratio: `layout is ${((100 * layout) / pdf).toFixed(0)} % of it`,
    },
  ]
}

export async function coreBench(): Promise<BenchRow[]> {
  return [
    ...(await momentRows()),
    ...(await analysisRows()),
    ...(await shelfRows()),
    ...(await jointRows()),
    ...(await meshRows()),
    ...(await sheetRows()),
  ]
}
