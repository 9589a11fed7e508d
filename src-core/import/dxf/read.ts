/** Outlines from an ASCII DXF drawing, as hostile input. */
import { compose, rotation, scaling, translation, determinant, type Affine } from '../../geometry/affine.ts'
import { assemble, scaleOf } from '../assemble.ts'
import type { Chain } from '../chain.ts'
import { DropList } from '../dropList.ts'
import { Budget, CAPS, Refusal, guarded } from '../refusal.ts'
import type { ImportOptions, ImportResult, ImportUnit, Preview } from '../types.ts'
import { decodeDxf } from './decode.ts'
import { nameKey, readDrawing, type DxfDrawing, type Entity } from './drawing.ts'
import { MIRROR, READERS, TILTED, planeOf } from './entities.ts'
import type { DxfRecord } from './records.ts'

/** $INSUNITS by the DXF reference, those a part may be drawn in. */
const UNITS: Readonly<Record<number, ImportUnit>> = {
  1: 'in',
  2: 'ft',
  4: 'mm',
  5: 'cm',
  6: 'm',
  9: 'mil',
  13: 'um',
  14: 'dm',
}

/** Never throws on any input: what cannot be read is refused with its line, what is no outline is dropped with its reason. */
export function importDxf(input: Uint8Array | string, options: ImportOptions = {}): ImportResult {
  return guarded(() => {
    if (typeof input === 'string' && input.length > CAPS.bytes) {
      throw new Refusal('the whole file', `longer than ${CAPS.bytes} characters`)
    }
    const drawing = readDrawing(typeof input === 'string' ? input : decodeDxf(input))
    return new Reading(drawing, options).preview()
  })
}

class Reading {
  private readonly chains: Chain[] = []
  private readonly counts: Record<string, number> = Object.create(null) as Record<string, number>
  private readonly drops = new DropList()
  private readonly budget = new Budget()
  private readonly notes: string[] = []
  private readonly layers = new Map<string, { name: string; count: number; visible: boolean }>()
  private readonly only: ReadonlySet<string> | null
  private readonly drawing: DxfDrawing
  private readonly scale: ReturnType<typeof scaleOf>

  constructor(drawing: DxfDrawing, options: ImportOptions) {
    this.drawing = drawing
    this.only = options.layers ? new Set(options.layers.map(nameKey)) : null
    const stated = UNITS[drawing.insUnits] ?? null
    if (!stated && drawing.insUnits !== 0 && !options.units) {
      this.notes.push(`its unit ($INSUNITS ${drawing.insUnits}) is not one a part is drawn in`)
    }
    this.scale = scaleOf(stated, options, extentOf(drawing))
  }

  preview(): Preview {
    const { units, factor, join } = this.scale
    this.walk(this.drawing.entities, scaling(factor, factor), 0, null)
    const { chains, counts, drops, notes } = this
    return assemble({
      kind: 'dxf',
      units,
      chains,
      counts: { ...counts },
      drops,
      join,
      notes,
      layers: [...this.layers.values()],
    })
  }

  /** @param within layer of the insert that draws these, for what lies on layer 0 of a block. */
  private walk(entities: readonly Entity[], m: Affine, depth: number, within: string | null): void {
    for (const entity of entities) {
      const { record } = entity
      this.budget.element(record.place)
      this.budget.work(record.codes.length + entity.vertices.length, record.place)
      const own = record.text(8) ?? '0'
      const layer = within !== null && nameKey(own) === '0' ? within : own
      const hidden = this.hiddenBecause(record, layer)
      if (hidden) this.drops.add(record.type, hidden, record.place)
      else if (record.type === 'INSERT') this.insert(record, m, depth, layer)
      else this.draw(entity, m)
    }
  }

  private hiddenBecause(record: DxfRecord, layer: string): string | null {
    const key = nameKey(layer)
    let known = this.layers.get(key)
    if (!known) {
      known = { name: layer, count: 0, visible: this.drawing.layers.get(key)?.visible ?? true }
      this.layers.set(key, known)
    }
    known.count++
    if (record.number(67, 0) === 1) return 'on a sheet, not in the model'
    if (record.number(60, 0) === 1) return 'invisible'
    if (this.only) return this.only.has(key) ? null : 'on a layer that was not chosen'
    return known.visible ? null : 'on a layer that is off or frozen'
  }

  private draw(entity: Entity, m: Affine): void {
    const { type, place } = entity.record
    const read = Object.hasOwn(READERS, type) ? READERS[type] : undefined
    if (!read) return this.drops.add(type, 'not a line or a curve', place)
    const made = read(entity, m, { tolerance: this.scale.curve, budget: this.budget, place })
    if ('dropped' in made) return this.drops.add(type, made.dropped, place)
    if (type === 'SPLINE' && !entity.record.has(10)) {
      const note = 'a spline is given by points on it only: a natural cubic spline through them stands in'
      if (!this.notes.includes(note)) this.notes.push(note)
    }
    this.counts[type] = (this.counts[type] ?? 0) + 1
    this.chains.push(made)
  }

  /** A block once for every row and column: moved to the base point, scaled, turned, put in its place. */
  private insert(record: DxfRecord, m: Affine, depth: number, layer: string): void {
    const say = (reason: string) => this.drops.add('INSERT', reason, record.place)
    const block = this.drawing.blocks.get(nameKey(record.text(2) ?? ''))
    if (!block) return say('its block is not in the file')
    if (block.external) return say('its block is an external file')
    if (depth >= CAPS.depth)
      throw new Refusal(record.place, `blocks within blocks, deeper than ${CAPS.depth}`)
    const plane = planeOf(record)
    if (plane === 'tilted') return say(TILTED)
    this.counts['INSERT'] = (this.counts['INSERT'] ?? 0) + 1
    const columns = Math.max(1, Math.floor(record.number(70, 1)))
    const rows = Math.max(1, Math.floor(record.number(71, 1)))
    const turn = rotation(record.number(50, 0))
    const inner = compose(
      scaling(record.number(41, 1), record.number(42, 1)),
      translation(-block.x, -block.y),
    )
    const at = translation(record.number(10), record.number(20))
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        this.budget.element(record.place)
        const step = translation(column * record.number(44, 0), row * record.number(45, 0))
        const local = compose(compose(compose(at, turn), step), inner)
        const placed = compose(m, plane === 'down' ? compose(MIRROR, local) : local)
        if (determinant(placed) === 0) return say('scaled to nothing')
        this.walk(block.entities, placed, depth + 1, layer)
      }
    }
  }
}

/** Width or height of the drawing, roughly: the range of its points, and its radii. */
function extentOf({ entities, blocks }: DxfDrawing): number {
  const low = [Infinity, Infinity]
  const high = [-Infinity, -Infinity]
  let radius = 0
  const look = (record: DxfRecord) => {
    record.codes.forEach((code, i) => {
      const axis = code === 10 || code === 11 ? 0 : code === 20 || code === 21 ? 1 : -1
      if (axis >= 0) {
        const value = record.numberAt(i)
        low[axis] = Math.min(low[axis]!, value)
        high[axis] = Math.max(high[axis]!, value)
      } else if (code === 40 && (record.type === 'CIRCLE' || record.type === 'ARC')) {
        radius = Math.max(radius, record.numberAt(i))
      }
    })
  }
  const all = [entities, ...[...blocks.values()].map((b) => b.entities)]
  for (const { record, vertices } of all.flat()) {
    if (!Object.hasOwn(READERS, record.type)) continue
    look(record)
    vertices.forEach(look)
  }
  return Math.max(2 * radius, high[0]! - low[0]!, high[1]! - low[1]!, 0)
}
