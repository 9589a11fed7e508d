/** What passes between a job and the shop library. A job keeps copies; nothing in it changes unless it is asked. */
import { KIND_WORDS } from '../hardware/words.ts'
import { canonical } from '../job/canonical.ts'
import {
  isBox,
  type At,
  type Clamp,
  type EdgeCut,
  type Hardware,
  type Job,
  type Setup,
  type StockItem,
} from '../job/schema.ts'
import { inward } from '../mounting/station.ts'
import type { Library, LibraryItem, Section } from './schema.ts'

type Pattern = LibraryItem<'hardware'>['value']

/**
 * A piece's pattern: what of it is the same wherever it is bolted. Lever, torque and nose are the setup's own. Null for
 * what is made for one job: stacks, stops and bolts through the part.
 */
export function patternOf(piece: Hardware): Pattern | null {
  if (isBox(piece)) {
    const { kind, mass, footprint, height, massCentre, press } = piece
    return {
      kind,
      mass,
      footprint,
      height,
      ...(massCentre ? { massCentre } : {}),
      ...(press ? { press: { thread: press.thread, class: press.class } } : {}),
    }
  }
  if (piece.kind === 'fixture') {
    const { kind, form, footprint, bore, thickness, density, mass, holes } = piece
    return { kind, form, footprint, bore, thickness, density, mass, holes }
  }
  if (piece.kind === 'anglePlate') {
    const { kind, size, thickness, webs, density, mass, slots, holes } = piece
    return { kind, size, thickness, webs, density, mass, slots, holes }
  }
  if (piece.kind === 'vee') {
    const { kind, size, angle, opening, foot, density, mass, holes } = piece
    return { kind, size, angle, opening, foot, density, mass, holes }
  }
  if (piece.kind !== 'clamp') return null
  const { kind, strap, stud, nut, washer, lubricated, heel, packing, mass } = piece
  return { kind, strap, stud, nut, washer, lubricated, heel, packing, mass }
}

const stockOf = ({ mass, count, footprint, height, hole }: StockItem) => ({
  mass,
  count,
  footprint,
  height,
  ...(hole ? { hole } : {}),
})

const without = <T extends object, K extends keyof T>(value: T, key: K): Omit<T, K> =>
  Object.fromEntries(Object.entries(value).filter(([name]) => name !== key)) as Omit<T, K>
const withoutName = <T extends { readonly name: string }>(value: T) => without(value, 'name')

/** Something of a job that carries the name of a library item which is different by now. */
export interface Offer {
  readonly section: Exclude<Section, 'tooling'>
  readonly item: LibraryItem
  /** In plain words what of the job it would change. */
  readonly words: string
  /** The job with the library's version taken over. */
  readonly take: (job: Job) => Job
}

/** What the library could bring up to date in a job, by name. Names left empty match nothing. */
export function offers(job: Job, library: Library): readonly Offer[] {
  const found: Offer[] = []
  const named = <T extends { readonly name: string }>(
    list: readonly T[],
    name: string | undefined,
  ): T | undefined => (name ? list.find((item) => item.name === name) : undefined)

  const lathe = named(library.lathes, job.lathe.name)
  if (lathe && !sameContent(lathe.value, withoutName(job.lathe)))
    found.push({
      section: 'lathes',
      item: lathe,
      words: `the lathe ${lathe.name}`,
      take: (j) => ({ ...j, lathe: { name: lathe.name, ...lathe.value } }),
    })
  const plate = named(library.plates, job.plate.name)
  if (plate && !sameContent(plate.value, withoutName(job.plate)))
    found.push({
      section: 'plates',
      item: plate,
      words: `the plate ${plate.name}`,
      take: (j) => ({ ...j, plate: { name: plate.name, ...plate.value } }),
    })
  const material = named(library.materials, job.part.material)
  if (material && material.value.density !== job.part.density)
    found.push({
      section: 'materials',
      item: material,
      words: `the density of ${material.name}`,
      take: (j) => ({ ...j, part: { ...j.part, density: material.value.density } }),
    })
  for (const stock of job.stock) {
    const item = named(library.weights, stock.name)
    if (!item || sameContent(item.value, stockOf(stock))) continue
    found.push({
      section: 'weights',
      item,
      words: `the stock weight ${item.name}`,
      take: (j) => ({ ...j, stock: j.stock.map((s) => (s.id === stock.id ? { ...s, ...item.value } : s)) }),
    })
  }
  for (const item of library.hardware) {
    const differs = job.setups.some((s) =>
      s.hardware.some(
        (h) => h.name === item.name && !sameContent(patternOf(renewed(h, item.value)), patternOf(h)),
      ),
    )
    if (differs)
      found.push({
        section: 'hardware',
        item,
        words: `the ${KIND_WORDS[item.value.kind]} ${item.name}`,
        take: (j) => takeHardware(j, item),
      })
  }
  return found
}

/** The library's clamp with what is set up here: where its bolt stands, how long its stud is, heel's height, packing. */
function takeClamp(piece: Clamp, value: Extract<Pattern, { kind: 'clamp' }>): Clamp {
  return {
    ...piece,
    ...value,
    strap: { ...value.strap, boltFrom: piece.strap.boltFrom },
    stud: { ...value.stud, length: piece.stud.length },
    heel:
      value.heel && piece.heel
        ? { ...value.heel, height: piece.heel.height, from: piece.heel.from }
        : piece.heel,
    packing: piece.packing,
  }
}

/** A piece with a pattern taken over: each by one of its own sort. */
function renewed(piece: Hardware, value: Pattern): Hardware {
  if (value.kind === 'clamp') return piece.kind === 'clamp' ? takeClamp(piece, value) : piece
  if (value.kind === 'anglePlate') return piece.kind === 'anglePlate' ? { ...piece, ...value } : piece
  if (value.kind === 'vee') return piece.kind === 'vee' ? { ...piece, ...value } : piece
  if (value.kind === 'fixture') return piece.kind === 'fixture' ? { ...piece, ...value } : piece
  if (!isBox(piece)) return piece
  const { press, ...box } = value
  const kept = without(piece, 'massCentre')
  return { ...kept, ...box, ...(press ? { press: { ...piece.press, ...press } } : {}) }
}

function takeHardware(job: Job, { name, value }: LibraryItem<'hardware'>): Job {
  const renew = (h: Hardware) => (h.name === name ? renewed(h, value) : h)
  return { ...job, setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.map(renew) })) }
}

/**
 * The job with a library item copied in: a lathe, plate or material in place of the job's own, a weight added to its
 * stock, a piece of hardware put into the setup at the middle of its first slot, tooling into the setup's first cut with a single edge.
 */
export function copyIntoJob(job: Job, setupId: string, section: Section, item: LibraryItem): Job {
  const { name, value } = item
  switch (section) {
    case 'lathes':
      return { ...job, lathe: { name, ...(value as LibraryItem<'lathes'>['value']) } }
    case 'plates':
      return { ...job, plate: { name, ...(value as LibraryItem<'plates'>['value']) } }
    case 'materials':
      return {
        ...job,
        part: { ...job.part, material: name, ...(value as LibraryItem<'materials'>['value']) },
      }
    case 'weights': {
      const stock = { id: freeId(job.stock, name), name, ...(value as LibraryItem<'weights'>['value']) }
      return { ...job, stock: [...job.stock, stock] }
    }
    case 'hardware':
      return inSetup(job, setupId, (setup) => {
        const slot = job.plate.slots[0]
        const pattern = value as Pattern
        const at: At = slot ? { slot: slot.id, radius: (slot.from + slot.to) / 2 } : { x: 0, y: 0 }
        const placed = { id: freeId(setup.hardware, name), name, at, fixed: false }
        const piece: Hardware =
          pattern.kind === 'clamp'
            ? { ...placed, facing: inward(job.plate, at), ...pattern }
            : pattern.kind === 'fixture'
              ? { ...placed, at: { x: 0, y: 0 }, facing: 0, ...pattern, bolts: [] }
              : pattern.kind === 'anglePlate' || pattern.kind === 'vee'
                ? { ...placed, facing: inward(job.plate, at), ...pattern, bolts: [] }
                : { ...placed, base: 0, ...pattern }
        return { ...setup, hardware: [...setup.hardware, piece] }
      })
    case 'tooling':
      return inSetup(job, setupId, (setup) => withTooling(setup, value as LibraryItem<'tooling'>['value']))
  }
}

/** Tooling goes to the first cut with a single edge. */
function withTooling(setup: Setup, tooling: LibraryItem<'tooling'>['value']): Setup {
  const first = edgeCutOf(setup)
  if (!first) return setup
  return { ...setup, cuts: setup.cuts!.map((c) => (c === first ? { ...first, ...tooling } : c)) }
}

/** The cut of a setup that tooling of the library is for. */
export const edgeCutOf = (setup: Setup): EdgeCut | null =>
  setup.cuts?.find((c): c is EdgeCut => 'depth' in c) ?? null

const inSetup = (job: Job, id: string, change: (setup: Setup) => Setup): Job => ({
  ...job,
  setups: job.setups.map((s) => (s.id === id ? change(s) : s)),
})

/** The library with what this job holds under names that it does not know yet, and how much that is. */
export function collect(job: Job, library: Library): { readonly library: Library; readonly added: number } {
  let added = 0
  const next: { -readonly [K in keyof Library]: Library[K] } = { ...library }
  const add = <S extends Section>(section: S, name: string | undefined, value: LibraryItem<S>['value']) => {
    const list = next[section] as readonly LibraryItem[]
    if (!name || list.some((item) => item.name === name)) return
    added++
    const item = { id: freeId(list, name), name, value }
    Object.assign(next, { [section]: [...list, item] })
  }
  add('lathes', job.lathe.name, withoutName(job.lathe))
  add('plates', job.plate.name, withoutName(job.plate))
  add('materials', job.part.material, { density: job.part.density })
  for (const stock of job.stock) add('weights', stock.name, stockOf(stock))
  for (const setup of job.setups)
    for (const piece of setup.hardware) {
      const pattern = patternOf(piece)
      if (pattern) add('hardware', piece.name, pattern)
    }
  return { library: next, added }
}

/** Two libraries in one: an item of the same name is taken from `coming`, the others stay. */
export function mergeLibraries(kept: Library, coming: Library): Library {
  const section = <S extends Section>(name: S): Library[S] => {
    const theirs = coming[name] as readonly LibraryItem[]
    const list: LibraryItem[] = (kept[name] as readonly LibraryItem[]).map((mine) => {
      const newer = theirs.find((t) => t.name === mine.name)
      return newer ? { ...newer, id: mine.id } : mine
    })
    for (const item of theirs)
      if (!list.some((l) => l.name === item.name)) list.push({ ...item, id: freeId(list, item.name) })
    return list as unknown as Library[S]
  }
  return {
    ...kept,
    lathes: section('lathes'),
    plates: section('plates'),
    hardware: section('hardware'),
    weights: section('weights'),
    materials: section('materials'),
    tooling: section('tooling'),
  }
}

/** A short id made of the name, with a number where it is taken. */
export function freeId(list: readonly { readonly id: string }[], name: string): string {
  const stem =
    name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 40) || 'item'
  for (let n = 1; ; n++) {
    const id = n === 1 ? stem : `${stem}-${n}`
    if (!list.some((item) => item.id === id)) return id
  }
}

const sameContent = (a: unknown, b: unknown): boolean => canonical(a) === canonical(b)
