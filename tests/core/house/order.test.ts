/** The order of the core's folders, types included, and no file that comes back to itself. */
import { readFileSync, readdirSync } from 'node:fs'
import { dirname, join, normalize, relative, sep } from 'node:path'
import { describe, expect, it } from 'vitest'

const CORE = join(import.meta.dirname, '../../../src-core')

/** Low to high: a folder imports from its own and from those before it. */
const ORDER = [
  ...['units', 'geometry', 'words', 'picture', 'mesh', 'job', 'import', 'findings', 'hardware', 'mass'],
  ...[
    'mounting',
    'doubt',
    'unbalance',
    'cutting',
    'passes',
    'clearance',
    'holding',
    'checks',
    'verdict',
    'analysis',
  ],
  ...['planner', 'steps', 'drawing', 'trim', 'bridge', 'book', 'shop'],
]

const files = readdirSync(CORE, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'))
const folderOf = (file: string) => file.split(sep)[0]!

/** Files of the core that a file imports, statically, by type or on demand. */
function importsOf(file: string): string[] {
  const text = readFileSync(join(CORE, file), 'utf8')
  const found = text.matchAll(/(?:from|import|import\()\s*'(\.[^']+)'/g)
  return [...found].map(([, path]) => relative(CORE, normalize(join(CORE, dirname(file), path!))))
}

const imports = new Map(files.map((f) => [f, importsOf(f)]))

describe('the order of the core', () => {
  it('knows every folder', () => {
    expect([...new Set(files.map(folderOf))].filter((f) => !ORDER.includes(f))).toEqual([])
  })

  it('lets a folder import only from itself and from those below it', () => {
    const upward = files.flatMap((file) =>
      imports
        .get(file)!
        .filter((target) => ORDER.indexOf(folderOf(target)) > ORDER.indexOf(folderOf(file)))
        .map((target) => `${file} imports ${target}`),
    )
    expect(upward).toEqual([])
  })

  it('has no file that comes back to itself through its imports', () => {
    const done = new Set<string>()
    const circles: string[] = []
    const walk = (file: string, way: readonly string[]) => {
      if (way.includes(file)) circles.push([...way.slice(way.indexOf(file)), file].join(' → '))
      if (done.has(file) || way.includes(file)) return
      for (const next of imports.get(file) ?? []) walk(next, [...way, file])
      done.add(file)
    }
    for (const file of files) walk(file, [])
    expect(circles).toEqual([])
  })
})
