/** Outlines from an SVG drawing, as hostile input. */
import { IDENTITY, compose, determinant, scaling, translation, type Affine } from '../../geometry/affine.ts'
import { assemble, scaleOf } from '../assemble.ts'
import type { Chain } from '../chain.ts'
import { DropList } from '../dropList.ts'
import { Budget, CAPS, Refusal, guarded, shown } from '../refusal.ts'
import type { ImportOptions, ImportResult, ImportUnit, Preview } from '../types.ts'
import {
  absoluteMm,
  parseLength,
  parseTransform,
  parseViewBox,
  userLength,
  viewBoxMap,
  type ViewBox,
} from './lengths.ts'
import { drawShape, isShape } from './shapes.ts'
import { readXml, type XmlElement } from './xml.ts'

const GROUPS = new Set(['g', 'a', 'switch'])
/** Elements that hold drawings to be used elsewhere or nothing drawn at all. */
const SILENT = new Set([
  ...[
    'defs',
    'symbol',
    'clipPath',
    'mask',
    'pattern',
    'marker',
    'linearGradient',
    'radialGradient',
    'filter',
  ],
  ...['style', 'script', 'metadata', 'title', 'desc'],
])

/**
 * Never throws on any text. A drawing whose width or height is a physical length is read at that size; else `units`
 * is null and lengths are the user units of the outermost view box. y points up in the result, and the lower left
 * corner of the drawing is its origin. What is drawn counts, filled or not; style sheets are not read.
 */
export function importSvg(text: string, options: ImportOptions = {}): ImportResult {
  return guarded(() => {
    if (text.length > CAPS.bytes) throw new Refusal('the whole file', `longer than ${CAPS.bytes} characters`)
    const root = readXml(text, new Budget())
    if (root.name !== 'svg') throw new Refusal(`line ${root.line}`, `<${shown(root.name)}> is no SVG drawing`)
    return new Reading(root, options).preview()
  })
}

class Reading {
  private readonly chains: Chain[] = []
  private readonly counts: Record<string, number> = Object.create(null) as Record<string, number>
  private readonly drops = new DropList()
  private readonly ids = new Map<string, XmlElement>()
  private readonly root: XmlElement
  private readonly budget = new Budget()
  private readonly size: RootSize
  private readonly scale: ReturnType<typeof scaleOf>

  constructor(root: XmlElement, options: ImportOptions) {
    this.root = root
    this.size = rootSize(root)
    this.scale = scaleOf(options.units ?? this.size.stated, options, this.size.extent)
    const index = (element: XmlElement) => {
      const id = element.attribute('id')
      if (id !== undefined && !this.ids.has(id)) this.ids.set(id, element)
      element.children.forEach(index)
    }
    index(root)
    const { factor } = this.scale
    const map = options.units || !this.size.stated ? scaling(factor, factor) : this.size.toMm
    const down = compose(scaling(1, -1), translation(-this.size.left, -this.size.bottom))
    this.walkAll(root, compose(map, down), 0)
  }

  preview(): Preview {
    const { chains, counts, drops } = this
    const { units, join } = this.scale
    return assemble({ kind: 'svg', units, chains, counts: { ...counts }, drops, join })
  }

  private walkAll(parent: XmlElement, m: Affine, depth: number): void {
    for (const child of parent.children) this.walk(child, m, depth)
  }

  private walk(element: XmlElement, m: Affine, depth: number): void {
    const { name } = element
    const place = `line ${element.line}`
    if (SILENT.has(name) || name.includes(':')) return
    this.budget.element(place)
    this.budget.work(element.size, place)
    if (depth > 4 * CAPS.depth)
      throw new Refusal(place, `groups within groups, deeper than ${4 * CAPS.depth}`)
    const drop = (reason: string) => this.drops.add(name, reason, place)
    if (isHidden(element)) return drop('hidden')
    const own = parseTransform(element.attribute('transform'))
    if (!own) return drop('its transform is not one')
    const inner = compose(m, own)
    if (determinant(inner) === 0) return drop('scaled to nothing')
    if (GROUPS.has(name)) this.walkAll(element, inner, depth + 1)
    else if (name === 'svg') this.nested(element, element, inner, depth)
    else if (name === 'use') this.use(element, inner, depth, drop)
    else if (isShape(name)) this.shape(element, inner, place, drop)
    else drop('not a line or a curve')
  }

  private shape(element: XmlElement, m: Affine, place: string, drop: (reason: string) => void): void {
    const drawn = drawShape(element, m, { tolerance: this.scale.curve, budget: this.budget, place })
    if ('dropped' in drawn) return drop(drawn.dropped)
    this.counts[element.name] = (this.counts[element.name] ?? 0) + 1
    for (const chain of drawn) this.chains.push(chain)
  }

  private use(element: XmlElement, m: Affine, depth: number, drop: (reason: string) => void): void {
    const href = element.attribute('href') ?? element.attribute('xlink:href') ?? ''
    const target = href.startsWith('#') ? this.ids.get(href.slice(1)) : undefined
    if (!target) return drop('what it uses is not in the file')
    const moved = compose(
      m,
      translation(
        userLength(element.attribute('x') ?? '0') ?? 0,
        userLength(element.attribute('y') ?? '0') ?? 0,
      ),
    )
    this.counts['use'] = (this.counts['use'] ?? 0) + 1
    if (target.name !== 'symbol' && target.name !== 'svg') return this.walk(target, moved, depth + 1)
    const own = parseTransform(target.attribute('transform'))
    if (own) this.nested(target, element, compose(moved, own), depth)
    else drop('the transform of what it uses is not one')
  }

  /** A drawing in a drawing: `holder` gives its size, which is its view box's unless stated. */
  private nested(element: XmlElement, holder: XmlElement, m: Affine, depth: number): void {
    const box = parseViewBox(element.attribute('viewBox'))
    const given = (name: string) => userLength(holder.attribute(name) ?? element.attribute(name) ?? '')
    const corner = translation(
      userLength(element.attribute('x') ?? '0') ?? 0,
      userLength(element.attribute('y') ?? '0') ?? 0,
    )
    const fitted = box
      ? viewBoxMap(
          box,
          given('width') ?? box.width,
          given('height') ?? box.height,
          element.attribute('preserveAspectRatio'),
        )
      : IDENTITY
    const inner = compose(m, compose(corner, fitted))
    if (determinant(inner) === 0)
      return this.drops.add(element.name, 'scaled to nothing', `line ${element.line}`)
    this.walkAll(element, inner, depth + 1)
  }
}

/** By its own attributes and style; what hides by a style sheet is not seen. */
function isHidden(element: XmlElement): boolean {
  const style = element.attribute('style') ?? ''
  const value = (name: string) =>
    new RegExp(`(?:^|;)\\s*${name}\\s*:\\s*([a-z]+)`, 'i').exec(style)?.[1] ?? element.attribute(name)
  return value('display') === 'none' || value('visibility') === 'hidden' || value('visibility') === 'collapse'
}

interface RootSize {
  /** Unit of the width or height, if it is a physical one. */
  readonly stated: ImportUnit | null
  /** From user units to mm. */
  readonly toMm: Affine
  /** Corner that becomes the origin, user units, y down. */
  readonly left: number
  readonly bottom: number
  /** User units. */
  readonly extent: number
}

function rootSize(root: XmlElement): RootSize {
  const box = parseViewBox(root.attribute('viewBox'))
  const sides = ['width', 'height'].map((name) => parseLength(root.attribute(name) ?? ''))
  const [width, height] = sides.map((length) => (length ? absoluteMm(length) : null))
  const known = sides.find((length) => length && absoluteMm(length) !== null)
  const inUser = ['width', 'height'].map((name) => userLength(root.attribute(name) ?? ''))
  const view: ViewBox = box ?? { x: 0, y: 0, width: inUser[0] ?? 0, height: inUser[1] ?? 0 }
  const stated: ImportUnit | null = !known
    ? null
    : known.unit === 'in' || known.unit === 'cm'
      ? known.unit
      : 'mm'
  return {
    stated,
    toMm: known
      ? physicalMap(box, width ?? null, height ?? null, root.attribute('preserveAspectRatio'))
      : IDENTITY,
    left: view.x,
    bottom: view.y + view.height,
    extent: Math.max(view.width, view.height) || 1000,
  }
}

/** Only the scale: the corner that becomes the origin is taken off before. */
function physicalMap(
  box: ViewBox | null,
  width: number | null,
  height: number | null,
  preserve: string | undefined,
): Affine {
  if (!box) {
    // Without a view box a user unit is a CSS pixel.
    const pixel = 1 / userLength('1mm')!
    return scaling(pixel, pixel)
  }
  const sx = width !== null && width > 0 ? width / box.width : null
  const sy = height !== null && height > 0 ? height / box.height : null
  const { a, d } = viewBoxMap(box, (sx ?? sy ?? 1) * box.width, (sy ?? sx ?? 1) * box.height, preserve)
  return scaling(a, d)
}
