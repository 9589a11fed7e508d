/** Damaged real files: whatever the bytes, an import answers with a usable preview or a refusal that names a place. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { importFile } from '../../src-core/import/importFile.ts'
import { toBodies } from '../../src-core/import/toBodies.ts'
import { jobSchema } from '../../src-core/job/schema.ts'
import { drawingFile } from '../helpers/drawings.ts'
import { Solid, binaryStl, cornersOf, meshOf, textStl } from '../helpers/solids.ts'

const runs = Number(process.env['EVENSWING_FUZZ'] ?? 300)
const utf8 = (text: string) => new TextEncoder().encode(text)
const corners = cornersOf(
  meshOf(Solid.cube([10, 20, 30]).subtract(Solid.cylinder(100, 3, 3, 12, true).translate([5, 5, 0]))),
)

const svg = `<?xml version="1.0"?>
<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50">
<defs><circle id="c" r="2"/><symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10" rx="2"/></symbol></defs>
<g transform="translate(10,10) rotate(90)"><use href="#c" x="5" transform="scale(3 2)"/><use href="#s" width="4" height="8"/></g>
<path d="M 0 0 h 10 v 5 c 1 2 -3 4 -5 5 S 2 3 0 5 z m 30 0 q 5 5 10 0 t 10 0 A 5 8 30 0 1 40 20 z"/>
<ellipse cx="80" cy="20" rx="9" ry="4"/><polygon points="60,0 70,0 70 10"/>
<line x1="0" y1="40" x2="10" y2="40"/><polyline points="10 40 10 48 0 40"/>
</svg>
`
const csv =
  'x [mm];y;degrees swept\n0;0;0\n60;0;106,26\n60;40\n0;40\n\n10;10;180\n20;10;180\n\n# remark\n30;10\n40;10\n40;20\n'

const FILES: readonly (readonly [string, Uint8Array])[] = [
  ...['plate-r12', 'plate-r2000', 'plate-r2018', 'blocks', 'mirrored', 'curves'].map(
    (name) => [`${name}.dxf`, drawingFile(`${name}.dxf`)] as const,
  ),
  ['drawing.svg', utf8(svg)],
  ['points.csv', utf8(csv)],
  ['binary.stl', binaryStl(corners)],
  ['text.stl', utf8(textStl(corners))],
]

const formatOf = (name: string) => name.slice(name.lastIndexOf('.'))
/** Each format gets its full number of damaged files, spread over its samples. */
const filesLike = (name: string) => FILES.filter(([other]) => formatOf(other) === formatOf(name)).length

/** Words that hurt: numbers at and beyond every edge, marks of the formats. */
const words = fc.constantFrom(
  ...[
    'NaN',
    'Infinity',
    '-1',
    '0',
    '1e308',
    '1e-308',
    '999999999',
    '-0',
    '',
    '1e9',
    '25',
    '\n',
    '\n0\n',
    '0\nINSERT\n',
    '<',
    '/>',
  ],
  ...[
    '<g>',
    '</g>',
    '&',
    '"',
    '\u0000',
    ' 10\n',
    ' 70\n255\n',
    'Z',
    'M',
    'a',
    ';;;',
    '\ufeff',
    'endsolid',
    'facet',
    '\n\n',
  ],
)

type Damage = (bytes: Uint8Array) => Uint8Array
const place = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true })
const at = (bytes: Uint8Array, share: number) => Math.floor(share * bytes.length)
const splice = (bytes: Uint8Array, from: number, to: number, middle: Uint8Array) => {
  const out = new Uint8Array(from + middle.length + bytes.length - to)
  out.set(bytes.subarray(0, from))
  out.set(middle, from)
  out.set(bytes.subarray(to), from + middle.length)
  return out
}
/** Replaces the number or word that stands at a place: files stay well formed around it. */
const exchange = (bytes: Uint8Array, share: number, word: string) => {
  const inWord = (c: number | undefined) => c !== undefined && c > 32 && c !== 34 && c !== 44 && c !== 59
  let from = at(bytes, share)
  while (from < bytes.length && !inWord(bytes[from])) from++
  let to = from
  while (inWord(bytes[to])) to++
  while (from > 0 && inWord(bytes[from - 1])) from--
  return splice(bytes, from, to, utf8(word))
}
const latin1 = (bytes: Uint8Array) => Array.from(bytes, (c) => String.fromCharCode(c)).join('')
const fromLatin1 = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0))
/** Another number in place of one of the file's, so that the file stays readable and its drawing goes wrong. */
const renumber = (bytes: Uint8Array, share: number, word: string) => {
  const numbers = [...latin1(bytes).matchAll(/-?\d+\.\d+|-?\b\d+\b/g)]
  const found = numbers[Math.floor(share * numbers.length)]
  return found ? splice(bytes, found.index, found.index + found[0].length, utf8(word)) : bytes
}
/** An even number of whole lines left out or put elsewhere: the groups of a DXF file stay pairs. */
const shuffle = (bytes: Uint8Array, from: number, to: number, count: number, leave: boolean) => {
  const lines = latin1(bytes).split('\n')
  const pair = (share: number) => 2 * Math.floor((share * lines.length) / 2)
  const taken = leave ? lines.slice(pair(from), pair(from) + 2 * count) : lines.splice(pair(from), 2 * count)
  lines.splice(pair(to), 0, ...(leave || count % 2 === 0 ? taken : []))
  return fromLatin1(lines.join('\n'))
}
const value = fc.oneof(
  fc.constantFrom(
    '0',
    '-1',
    '1',
    '2',
    '0.5',
    '8',
    '64',
    '255',
    '1e-9',
    '1e5',
    '1e9',
    '-1e9',
    '100000000',
    '0.000001',
  ),
  fc.double({ min: -200, max: 200, noNaN: true }).map((v) => v.toFixed(3)),
  fc.integer({ min: -20, max: 400 }).map(String),
)
const gentle: fc.Arbitrary<Damage> = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.tuple(place, value).map(
      ([p, v]): Damage =>
        (b) =>
          renumber(b, p, v),
    ),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(place, place, fc.integer({ min: 1, max: 12 }), fc.boolean()).map(
      ([p, q, n, leave]): Damage =>
        (b) =>
          shuffle(b, p, q, n, leave),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(place, fc.integer({ min: 0, max: 255 })).map(
      ([p, v]): Damage =>
        (b) =>
          splice(b, at(b, p), Math.min(b.length, at(b, p) + 1), Uint8Array.of(v)),
    ),
  },
)
const harsh: fc.Arbitrary<Damage> = fc.oneof(
  fc.tuple(place, words).map(
    ([p, w]): Damage =>
      (b) =>
        exchange(b, p, w),
  ),
  fc.tuple(place, fc.double({ noNaN: false }).map(String)).map(
    ([p, w]): Damage =>
      (b) =>
        exchange(b, p, w),
  ),
  fc.tuple(place, words).map(
    ([p, w]): Damage =>
      (b) =>
        splice(b, at(b, p), at(b, p), utf8(w)),
  ),
  fc.tuple(place, fc.nat(400)).map(
    ([p, n]): Damage =>
      (b) =>
        splice(b, at(b, p), Math.min(b.length, at(b, p) + n), new Uint8Array()),
  ),
  fc.tuple(place, place, fc.nat(3000)).map(
    ([p, q, n]): Damage =>
      (b) =>
        splice(b, at(b, p), at(b, p), b.slice(at(b, q), at(b, q) + n)),
  ),
  place.map(
    (p): Damage =>
      (b) =>
        b.subarray(0, at(b, p)),
  ),
)
const damages = fc.oneof(
  { weight: 3, arbitrary: fc.array(gentle, { minLength: 1, maxLength: 5 }) },
  { weight: 1, arbitrary: fc.array(fc.oneof(gentle, harsh), { minLength: 1, maxLength: 4 }) },
)

function answer(name: string, bytes: Uint8Array): void {
  const result = importFile(name, bytes)
  if (!result.ok) {
    expect(result.faults.length).toBeGreaterThan(0)
    for (const { place: where, reason } of result.faults) expect(where !== '' && reason !== '').toBe(true)
    return
  }
  for (const { outline, holes } of result.outlines) {
    for (const v of [outline, ...holes].flat()) {
      expect(Number.isFinite(v.x) && Number.isFinite(v.y) && Number.isFinite(v.bulge ?? 0)).toBe(true)
    }
  }
  const made = toBodies(result, { thickness: 10, ...(result.units === null ? { units: 'mm' } : {}) })
  if (made.ok) expect(jobSchema.shape.part.shape.bodies.safeParse(made.bodies).error?.message).toBeUndefined()
  else expect(made.reason).not.toBe('')
}

describe('imports of damaged files', () => {
  it.each(FILES)('%s whole', (name, bytes) => {
    expect(importFile(name, bytes).ok).toBe(true)
    answer(name, bytes)
  })

  it.each(FILES)('%s damaged', (name, bytes) => {
    fc.assert(
      fc.property(damages, (harms) => {
        answer(
          name,
          harms.reduce((b, harm) => harm(b), bytes),
        )
      }),
      { numRuns: Math.ceil(runs / filesLike(name)) },
    )
  })

  it('any bytes under any ending', () => {
    const ending = fc.constantFrom('dxf', 'svg', 'csv', 'txt', 'stl')
    fc.assert(
      fc.property(ending, fc.uint8Array({ maxLength: 400 }), (name, bytes) => answer(`a.${name}`, bytes)),
      { numRuns: runs },
    )
  })
})
