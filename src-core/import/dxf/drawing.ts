/** The parts of a DXF file that outlines come from: header, layers, blocks and entities. */
import { CAPS, Refusal } from '../refusal.ts'
import { readRecords, type DxfRecord } from './records.ts'

/** An entity with the vertices that follow a POLYLINE. */
export interface Entity {
  readonly record: DxfRecord
  readonly vertices: DxfRecord[]
}

export interface Block {
  readonly x: number
  readonly y: number
  readonly external: boolean
  readonly entities: Entity[]
}

export interface DxfDrawing {
  /** $INSUNITS, 0 where there is none. */
  readonly insUnits: number
  readonly layers: ReadonlyMap<string, { readonly visible: boolean }>
  readonly blocks: ReadonlyMap<string, Block>
  readonly entities: readonly Entity[]
}

/** Names are compared without regard to case. */
export const nameKey = (name: string) => name.trim().toUpperCase()

export function readDrawing(text: string): DxfDrawing {
  const layers = new Map<string, { visible: boolean }>()
  const blocks = new Map<string, Block>()
  const entities: Entity[] = []
  let insUnits = 0
  let section = ''
  let block: Block | null = null
  let polyline: Entity | null = null
  let sections = 0
  let count = 0

  readRecords(text, (record) => {
    if (record.type === 'SECTION') {
      section = nameKey(record.text(2) ?? '')
      sections++
      if (section === 'HEADER') insUnits = headerUnits(record)
    } else if (record.type === 'ENDSEC') {
      section = ''
      block = null
      polyline = null
    } else if (section === 'TABLES' && record.type === 'LAYER') readLayer(record)
    else if (section === 'BLOCKS' && record.type === 'BLOCK') block = readBlock(record)
    else if (section === 'BLOCKS' && record.type === 'ENDBLK') block = null
    else if (section === 'ENTITIES') addEntity(record, entities)
    else if (section === 'BLOCKS' && block) addEntity(record, block.entities)
  })
  if (sections === 0) throw new Refusal('line 1', 'no section: not a DXF drawing')
  return { insUnits, layers, blocks, entities }

  function readLayer(record: DxfRecord): void {
    const name = record.text(2)
    if (name === undefined) return
    const frozen = (record.number(70, 0) & 1) === 1
    layers.set(nameKey(name), { visible: !frozen && record.number(62, 7) >= 0 })
  }

  function readBlock(record: DxfRecord): Block {
    const external = (record.number(70, 0) & 4) === 4
    const made: Block = { x: record.number(10, 0), y: record.number(20, 0), external, entities: [] }
    blocks.set(nameKey(record.text(2) ?? ''), made)
    return made
  }

  function addEntity(record: DxfRecord, list: Entity[]): void {
    if (record.type === 'VERTEX' && polyline) {
      polyline.vertices.push(record)
      return
    }
    if (record.type === 'SEQEND' || record.type === 'ATTRIB') {
      polyline = null
      return
    }
    if (++count > CAPS.elements) throw new Refusal(record.place, `more than ${CAPS.elements} elements`)
    const entity = { record, vertices: [] }
    list.push(entity)
    polyline = record.type === 'POLYLINE' ? entity : null
  }
}

/** The header's variables are groups of the section's own record: 9 with the name, then its value. */
function headerUnits(record: DxfRecord): number {
  const at = record.values.findIndex((value, i) => record.codes[i] === 9 && value.trim() === '$INSUNITS')
  return at >= 0 && record.codes[at + 1] === 70 ? record.numberAt(at + 1) : 0
}
