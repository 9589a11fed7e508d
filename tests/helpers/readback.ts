/** Reads files back with programs that had no part in writing them: poppler's tools and Debian's ezdxf. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Debian's own interpreter: ezdxf is installed for that one. */
const PYTHON = '/usr/bin/python3'

/** Writes the content to a file that lives as long as `use` runs. */
function withFile<T>(
  name: string,
  content: string | Uint8Array,
  use: (path: string, folder: string) => T,
): T {
  const folder = mkdtempSync(join(tmpdir(), 'readback-'))
  try {
    const path = join(folder, name)
    writeFileSync(path, content)
    return use(path, folder)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function run(program: string, args: readonly string[]): string {
  return execFileSync(program, args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 })
}

export interface PdfFacts {
  /** `key: value` lines of pdfinfo. */
  readonly info: Readonly<Record<string, string>>
  /** Size of each page, points. */
  readonly pages: readonly { readonly width: number; readonly height: number }[]
  readonly fonts: readonly {
    readonly name: string
    readonly embedded: boolean
    readonly subset: boolean
    readonly unicode: boolean
  }[]
  readonly text: string
}

export function readPdf(pdf: Uint8Array): PdfFacts {
  return withFile('drawing.pdf', pdf, (path) => {
    const lines = run('pdfinfo', ['-l', '-1', path]).split('\n')
    const info = Object.fromEntries(lines.map((line) => split(line, ':')))
    const sizes = lines.flatMap((line) => [...line.matchAll(/^Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts/g)])
    return {
      info,
      pages: sizes.map(([, width, height]) => ({ width: Number(width), height: Number(height) })),
      fonts: run('pdffonts', [path]).trim().split('\n').slice(2).map(fontLine),
      text: run('pdftotext', ['-layout', path, '-']),
    }
  })
}

export interface PdfWord {
  /** From 1. */
  readonly page: number
  readonly text: string
  /** Middle of its box, and its width, mm from the lower left corner. */
  readonly x: number
  readonly y: number
  readonly width: number
  /** To the nearest edge of the paper. */
  readonly fromEdge: number
}

/** Every word with its place, as poppler finds it. */
export function readWords(pdf: Uint8Array): PdfWord[] {
  return withFile('drawing.pdf', pdf, (path) => {
    const mm = (points: string) => (Number(points) * 25.4) / 72
    let page = 0
    let [width, height] = [0, 0]
    return run('pdftotext', ['-bbox', path, '-'])
      .split('\n')
      .flatMap((line): PdfWord[] => {
        const sheet = /<page width="([\d.]+)" height="([\d.]+)"/.exec(line)
        if (sheet) {
          page++
          width = mm(sheet[1]!)
          height = mm(sheet[2]!)
        }
        const word = /<word xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*)<\/word>/.exec(line)
        if (!word) return []
        const [x0, y0, x1, y1] = word.slice(1, 5).map(mm) as [number, number, number, number]
        const text = word[5]!.replace(/&(\w+);/g, (_, name: string) => MARKS[name] ?? '')
        const [x, y] = [(x0 + x1) / 2, height - (y0 + y1) / 2]
        const fromEdge = Math.min(x, y, width - x, height - y)
        return [{ page, text, x, y, width: x1 - x0, fromEdge }]
      })
  })
}

const MARKS: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', apos: "'", quot: '"' }

export interface SvgCircle {
  readonly x: number
  readonly y: number
  readonly r: number
  readonly layer: string
}

/** Circles of each sheet, as Python's own reader of XML finds them. */
export function readCircles(svgs: readonly string[]): SvgCircle[][] {
  const folder = mkdtempSync(join(tmpdir(), 'readback-'))
  try {
    const paths = svgs.map((svg, i) => {
      const path = join(folder, `${i}.svg`)
      writeFileSync(path, svg)
      return path
    })
    return JSON.parse(run(PYTHON, [join(import.meta.dirname, 'read_circles.py'), ...paths])) as SvgCircle[][]
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function split(line: string, mark: string): [string, string] {
  const at = line.indexOf(mark)
  return [line.slice(0, at).trim(), line.slice(at + 1).trim()]
}

/** `ABCDEF+DejaVuSans  CID TrueType  Identity-H  yes yes yes  7  0`: the flags are counted from the end. */
function fontLine(line: string): PdfFacts['fonts'][number] {
  const words = line.trim().split(/\s+/)
  const flag = (fromEnd: number): boolean => words.at(-fromEnd) === 'yes'
  return { name: words[0] ?? '', embedded: flag(5), subset: flag(4), unicode: flag(3) }
}

/** A grey picture, rows from the top; 0 is black, 255 white. */
export interface Raster {
  readonly width: number
  readonly height: number
  readonly pixels: Uint8Array
}

/** One page as pixels; 254 dots an inch are ten a millimetre. */
export function rasterPage(pdf: Uint8Array, page: number, dotsPerInch: number): Raster {
  return withFile('drawing.pdf', pdf, (path, folder) => {
    const place = ['-f', String(page), '-l', String(page), '-singlefile']
    const picture = join(folder, 'page')
    run('pdftoppm', ['-r', String(dotsPerInch), '-gray', ...place, path, picture])
    return parsePgm(readFileSync(`${picture}.pgm`))
  })
}

function parsePgm(bytes: Uint8Array): Raster {
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(new TextDecoder('latin1').decode(bytes.subarray(0, 64)))
  if (header === null) throw new Error('Not an 8-bit PGM picture')
  const [whole, width, height] = header
  const pixels = bytes.subarray(whole.length)
  if (pixels.length !== Number(width) * Number(height)) throw new Error('A PGM picture of the wrong length')
  return { width: Number(width), height: Number(height), pixels }
}

export interface DxfEntity {
  readonly type: string
  readonly layer: string
  readonly attributes: Readonly<Record<string, unknown>>
  /** x, y and bulge of each LWPOLYLINE vertex. */
  readonly points?: readonly (readonly [number, number, number])[]
  readonly closed?: boolean
  /** Text as read, codes resolved. */
  readonly text?: string
  /** What ezdxf measures between a DIMENSION's points, drawing units. */
  readonly measured?: number
  readonly block?: readonly DxfEntity[]
  readonly holes?: number
}

export interface DxfFacts {
  readonly errors: readonly string[]
  readonly fixes: readonly string[]
  readonly version: string
  readonly header: Readonly<Record<string, unknown>>
  readonly layers: Readonly<Record<string, { colour: number; lineType: string; width: number }>>
  readonly lineTypes: Readonly<Record<string, readonly number[]>>
  readonly styles: Readonly<Record<string, string>>
  readonly dimensionStyles: Readonly<Record<string, { factor: number; height: number }>>
  readonly entities: readonly DxfEntity[]
}

export function readDxf(dxf: string): DxfFacts {
  return withFile('drawing.dxf', dxf, (path) => {
    const script = join(import.meta.dirname, 'read_dxf.py')
    return JSON.parse(run(PYTHON, [script, path])) as DxfFacts
  })
}

/** Throws unless the text is well-formed XML; returns the names of all elements in document order. */
export function readXml(xml: string): string[] {
  return withFile('drawing.xml', xml, (path) => {
    const script =
      'import sys, json, xml.etree.ElementTree as t; ' +
      'print(json.dumps([e.tag for e in t.parse(sys.argv[1]).iter()]))'
    return JSON.parse(run(PYTHON, ['-c', script, path])) as string[]
  })
}
