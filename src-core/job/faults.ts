/**
 * Faults of a job that its schema cannot see: names that point nowhere, names used twice, outlines that enclose
 * nothing sensible, pockets cut out of thin air. Each has the path of the field and a reason in plain words.
 */
import { keptOf } from '../geometry/kept.ts'
import { regionFaults } from '../geometry/validate.ts'
import type { RingFault } from '../geometry/ringFault.ts'
import { meshFaultWords } from '../mesh/faultWords.ts'
import { meshFaults } from '../mesh/faults.ts'
import type { JobFault } from './fault.ts'
import { fixtureFaults, shelfFaults } from './fixtureFaults.ts'
import { photographFaults } from './photographs.ts'
import { removalFaults } from './removals.ts'
import {
  isBox,
  isBoreCut,
  isOnFixture,
  isPrism,
  isShelf,
  isStationed,
  type Body,
  type Cut,
  type Fixture,
  type Footprint,
  type Hardware,
  type Job,
  type Prism,
  type Setup,
  type Shelf,
} from './schema.ts'
import { convert } from '../units/convert.ts'
import { plain, type DisplayUnits } from '../units/format.ts'
import { ringFaultWords } from '../words/ringFaults.ts'

/** All faults of a job that fits the schema; empty where it can be analysed. */
export function jobFaults(job: Job): JobFault[] {
  return [
    ...duplicateIds(job),
    ...references(job),
    ...ranges(job),
    ...outlines(job),
    ...photographFaults(job),
  ]
}

function duplicateIds(job: Job): JobFault[] {
  const faults: JobFault[] = []
  const check = (path: string, items: readonly { readonly id: string }[]) => {
    const seen = new Map<string, number>()
    items.forEach((item, i) => {
      const first = seen.get(item.id)
      if (first === undefined) seen.set(item.id, i)
      else
        faults.push({
          path: `${path}[${i}].id`,
          message: `"${item.id}" is used already by ${path}[${first}]`,
        })
    })
  }
  check('plate.slots', job.plate.slots)
  check('plate.holes', job.plate.holes)
  check('stock', job.stock)
  check('part.bodies', job.part.bodies)
  check('part.bores', job.part.bores)
  check('setups', job.setups)
  check('runs', job.runs ?? [])
  job.setups.forEach((s, i) => {
    check(`setups[${i}].hardware`, s.hardware)
    check(`setups[${i}].cuts`, s.cuts ?? [])
    s.hardware.forEach((h, k) => {
      if (h.kind === 'fixture' || isShelf(h)) check(`setups[${i}].hardware[${k}].holes`, h.holes)
      if (h.kind === 'anglePlate') check(`setups[${i}].hardware[${k}].slots`, h.slots)
    })
  })
  return faults
}

const fixturesIn = ({ hardware }: Setup) => hardware.filter((h) => h.kind === 'fixture' || isShelf(h))

/** What may stand on a sub-plate, and what on a shelf: of vees a loose block, on that of an angle plate. */
const mayStand = (h: Hardware, on: Fixture | Shelf): boolean =>
  h.kind === 'vee'
    ? on.kind === 'anglePlate'
    : h.kind !== 'fixture' && !isShelf(h) && !(isShelf(on) && h.kind === 'twin')

function references(job: Job): JobFault[] {
  const faults: JobFault[] = []
  const bores = new Set(job.part.bores.map((b) => b.id))
  const slots = new Set(job.plate.slots.map((s) => s.id))
  const holes = new Set(job.plate.holes.map((h) => h.id))
  const want = (has: boolean, path: string, what: string, id: string) => {
    if (!has) faults.push({ path, message: `there is no ${what} "${id}"` })
  }
  job.setups.forEach((setup: Setup, i) => {
    const at = `setups[${i}]`
    if ('bore' in setup.centre)
      want(bores.has(setup.centre.bore), `${at}.centre.bore`, 'bore', setup.centre.bore)
    setup.cuts?.forEach((cut, k) => {
      if (isBoreCut(cut)) want(bores.has(cut.bore), `${at}.cuts[${k}].bore`, 'bore', cut.bore)
    })
    const onPlate = new Map(fixturesIn(setup).map((f) => [f.id, f]))
    if (setup.seat) want(onPlate.has(setup.seat.on), `${at}.seat.on`, 'fixture', setup.seat.on)
    const stock = new Set(job.stock.map((s) => s.id))
    setup.hardware.forEach((h, k) => {
      if (h.kind === 'weight')
        h.stack.forEach(({ stock: id }, n) =>
          want(stock.has(id), `${at}.hardware[${k}].stack[${n}].stock`, 'stock', id),
        )
      if (!isStationed(h)) return
      if ('slot' in h.at) want(slots.has(h.at.slot), `${at}.hardware[${k}].at.slot`, 'slot', h.at.slot)
      if (isOnFixture(h.at)) {
        const { on } = h.at
        const fixture = onPlate.get(on)
        const path = `${at}.hardware[${k}].at`
        want(fixture !== undefined && mayStand(h, fixture), `${path}.on`, 'fixture to stand on', on)
        if (fixture && 'along' in h.at) want(isShelf(fixture), `${path}.on`, 'shelf', on)
        else if (h.kind === 'vee')
          faults.push({ path, message: 'names a hole: give how far along the shelf and out the block lies' })
        else if (fixture && 'hole' in h.at) {
          const { hole } = h.at
          want(
            fixture.holes.some((o) => o.id === hole),
            `${path}.hole`,
            `hole of ${on}`,
            hole,
          )
        }
      } else if ('hole' in h.at) want(holes.has(h.at.hole), `${at}.hardware[${k}].at.hole`, 'hole', h.at.hole)
    })
  })
  return faults
}

function ranges(job: Job): JobFault[] {
  const faults: JobFault[] = []
  const { plate, lathe, part } = job
  if (plate.bore >= plate.diameter)
    faults.push({ path: 'plate.bore', message: 'is not smaller than the plate' })
  if (lathe.gap && lathe.gap.swing < lathe.swingOverBed)
    faults.push({ path: 'lathe.gap.swing', message: 'is smaller than the swing over the bed' })
  if (lathe.speeds.steps.length === 0 && lathe.speeds.stepless === null)
    faults.push({ path: 'lathe.speeds', message: 'has neither steps nor a range without steps' })
  if (lathe.speeds.stepless && lathe.speeds.stepless[1] < lathe.speeds.stepless[0])
    faults.push({ path: 'lathe.speeds.stepless', message: 'ends below where it begins' })
  const reach = lathe.barReach ?? 0
  lathe.carriage?.profile.forEach(({ behind }, i) => {
    if (behind < reach)
      faults.push({
        path: `lathe.carriage.profile[${i}].behind`,
        message: `stands nearer than the ${plain(reach, 1)} mm that the bar reaches, which is up to the first of the carriage`,
      })
  })
  plate.slots.forEach((slot, i) => {
    if (slot.to <= slot.from) faults.push({ path: `plate.slots[${i}].to`, message: 'is not beyond "from"' })
    if (slot.to > plate.diameter / 2)
      faults.push({ path: `plate.slots[${i}].to`, message: 'lies beyond the rim of the plate' })
  })
  part.bores.forEach((bore, i) => {
    if (bore.start > bore.diameter)
      faults.push({ path: `part.bores[${i}].start`, message: 'is larger than the finish diameter' })
    const limits = bore.tolerance && 'limits' in bore.tolerance ? bore.tolerance.limits : null
    if (limits && limits[1] < limits[0])
      faults.push({ path: `part.bores[${i}].tolerance.limits`, message: 'end below where they begin' })
  })
  faults.push(
    ...job.setups.flatMap(({ cuts }, i) =>
      (cuts ?? []).flatMap((c, k) => cutFaults(c, `setups[${i}].cuts[${k}]`)),
    ),
  )
  job.setups.forEach((setup, i) =>
    setup.hardware.forEach((h, k) => {
      if (h.kind !== 'clamp') return
      const { length, width, boltFrom, opening } = h.strap
      const path = `setups[${i}].hardware[${k}].strap`
      if (boltFrom >= length)
        faults.push({ path: `${path}.boltFrom`, message: 'lies beyond the end of the strap' })
      if (opening >= width)
        faults.push({ path: `${path}.opening`, message: 'is not narrower than the strap' })
    }),
  )
  if (!part.bodies.some((b) => b.effect === 'adds'))
    faults.push({ path: 'part.bodies', message: 'has no body that adds material' })
  return faults
}

function cutFaults(cut: Cut, path: string): JobFault[] {
  const faults: JobFault[] = []
  if (cut.kind === 'face' && cut.from === cut.to)
    faults.push({ path: `${path}.to`, message: 'is the radius where the face begins' })
  if (cut.kind === 'turn' && cut.diameter >= cut.start)
    faults.push({ path: `${path}.diameter`, message: 'is not smaller than what it starts from' })
  if (cut.kind === 'recess' && cut.diameter <= cut.start)
    faults.push({ path: `${path}.diameter`, message: 'is not larger than what it starts from' })
  if ('z' in cut && cut.z && cut.z[1] <= cut.z[0])
    faults.push({ path: `${path}.z`, message: 'starts no higher than it ends' })
  return faults
}

function outlines(job: Job): JobFault[] {
  const faults: JobFault[] = []
  let sound = true
  job.part.bodies.forEach((body: Body, i) => {
    if (!isPrism(body)) {
      faults.push(...meshIndexFaults(body.mesh, `part.bodies[${i}].mesh`))
      return
    }
    const found = bodyFaults(body)
    if (found.length > 0) sound = false
    for (const f of found) faults.push(ringFault(f, `part.bodies[${i}]`, job.displayUnits))
  })
  const footprints: { path: string; footprint: Footprint }[] = [
    ...job.stock.map((s, i) => ({ path: `stock[${i}].footprint`, footprint: s.footprint })),
    ...job.setups.flatMap((s, i) =>
      s.hardware.flatMap((h, k) =>
        isBox(h) || h.kind === 'fixture'
          ? [{ path: `setups[${i}].hardware[${k}].footprint`, footprint: h.footprint }]
          : [],
      ),
    ),
  ]
  for (const { path, footprint } of footprints) {
    if (!('outline' in footprint)) continue
    for (const f of regionFaults({ outline: footprint.outline, holes: [] }))
      faults.push(ringFault(f, path, job.displayUnits))
  }
  job.setups.forEach((s, i) =>
    s.hardware.forEach((h, k) => {
      const path = `setups[${i}].hardware[${k}]`
      if (h.kind === 'fixture') faults.push(...fixtureFaults(h, path))
      if (isShelf(h)) faults.push(...shelfFaults(h, path))
    }),
  )
  if (sound) faults.push(...removalFaults(job.part))
  return faults
}

/** Outline faults of a body; kept per body object, which is immutable. */
export const bodyFaults: (body: Prism) => RingFault[] = keptOf(regionFaults)

function ringFault(f: RingFault, path: string, units: DisplayUnits): JobFault {
  const ring = f.ring === 0 ? 'outline' : `holes[${f.ring - 1}]`
  const inch = units === 'in'
  const shown = (v: number) => (inch ? plain(convert(v, 'mm', 'in'), 4) : plain(v, 3))
  const place = `at x ${shown(f.at.x)}, y ${shown(f.at.y)} ${units}`
  return { path: `${path}.${ring}[${f.vertex}]`, message: `${ringFaultWords(f)} ${place}` }
}

function meshIndexFaults(
  mesh: { vertices: readonly number[]; triangles: readonly number[] },
  path: string,
): JobFault[] {
  if (mesh.vertices.length % 3 !== 0)
    return [{ path: `${path}.vertices`, message: 'is not a multiple of three numbers' }]
  if (mesh.triangles.length % 3 !== 0)
    return [{ path: `${path}.triangles`, message: 'is not a multiple of three indices' }]
  const count = mesh.vertices.length / 3
  const bad = mesh.triangles.findIndex((t) => t >= count)
  if (bad >= 0)
    return [
      { path: `${path}.triangles[${bad}]`, message: `points at vertex ${mesh.triangles[bad]} of ${count}` },
    ]
  const words = meshFaultWords(meshFaults(mesh))
  return words ? [{ path, message: `is not a solid: ${words}` }] : []
}
