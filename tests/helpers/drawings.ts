/** Drawings to import, and looks at what came of them. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect } from 'vitest'
import { regionMoments } from '../../src-core/geometry/ringMoments.ts'
import type { Region } from '../../src-core/geometry/types.ts'
import type { ImportResult, Preview } from '../../src-core/import/types.ts'

const FOLDER = join(import.meta.dirname, '..', 'data', 'import')

/** A file written by ezdxf; `make.py` beside it says what is in it. */
export const drawingFile = (name: string): Uint8Array => new Uint8Array(readFileSync(join(FOLDER, name)))

export function read(result: ImportResult): Preview {
  if (!result.ok) expect.fail(`refused: ${result.faults.map((f) => `${f.place}: ${f.reason}`).join('; ')}`)
  return result
}

/** `place: reason` of a refusal. */
export function refusal(result: ImportResult): string {
  if (result.ok) expect.fail('was read')
  return result.faults.map((f) => `${f.place}: ${f.reason}`).join('; ')
}

export const areaOf = (region: Region) => regionMoments(region, region.outline[0]).area
export const areasOf = (preview: Preview) => preview.outlines.map(areaOf)

/** `kind ×count: reason`, sorted. */
export const droppedOf = (preview: Preview) =>
  preview.dropped.map((d) => `${d.kind} ×${d.count}: ${d.reason}`).sort()

/** A DXF text of entities, each a list of code and value. */
export function dxfOf(
  entities: readonly (readonly (string | number)[])[],
  header: readonly (string | number)[] = [9, '$INSUNITS', 70, 4],
): string {
  const section = (name: string, groups: readonly (string | number)[]) => [
    0,
    'SECTION',
    2,
    name,
    ...groups,
    0,
    'ENDSEC',
  ]
  return [...section('HEADER', header), ...section('ENTITIES', entities.flat()), 0, 'EOF', ''].join('\n')
}

/** LWPOLYLINE groups, closed, of x, y, bulge triples. */
export function lwPolyline(points: readonly (readonly number[])[], closed = 1): (string | number)[] {
  const groups = points.flatMap(([x, y, bulge]) => [10, x!, 20, y!, ...(bulge ? [42, bulge] : [])])
  return [0, 'LWPOLYLINE', 8, '0', 90, points.length, 70, closed, ...groups]
}

export const line = (x1: number, y1: number, x2: number, y2: number) => [
  0,
  'LINE',
  8,
  '0',
  10,
  x1,
  20,
  y1,
  11,
  x2,
  21,
  y2,
]
