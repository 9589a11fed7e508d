/** A picture in memory that polygons are painted on, edges smoothed by how much of a pixel they cover. */

type FillRule = 'even-odd' | 'non-zero'

export interface Canvas {
  readonly width: number
  readonly height: number
  /** Three bytes a pixel, rows from the top. */
  readonly pixels: Uint8Array
  /** Paints polygons (x and y alternating, pixels, y down) as one shape in a colour `#rrggbb`. */
  fill(polygons: readonly (readonly number[])[], colour: string, rule: FillRule): void
}

/** Lines that each row of pixels is sampled on. */
const LINES = 4

/** A white picture. */
export function createCanvas(width: number, height: number): Canvas {
  const pixels = new Uint8Array(3 * width * height).fill(255)
  const cover = new Float32Array(width)
  return {
    width,
    height,
    pixels,
    fill(polygons, colour, rule) {
      const edges = polygons.flatMap(edgesOf).sort((a, b) => a.top - b.top)
      if (edges.length === 0) return
      const rgb = [1, 3, 5].map((i) => parseInt(colour.slice(i, i + 2), 16))
      const last = Math.min(height - 1, Math.ceil(edges.reduce((low, e) => Math.max(low, e.bottom), 0)))
      let active: Edge[] = []
      let next = 0
      for (let row = Math.max(0, Math.floor(edges[0]!.top)); row <= last; row++) {
        while (next < edges.length && edges[next]!.top < row + 1) active.push(edges[next++]!)
        active = active.filter((e) => e.bottom > row)
        if (active.length === 0) continue
        cover.fill(0)
        for (let line = 0; line < LINES; line++) addSpans(cover, active, row + (line + 0.5) / LINES, rule)
        blend(pixels, row * width, cover, rgb)
      }
    },
  }
}

interface Edge {
  readonly top: number
  readonly bottom: number
  /** x at height 0, and its growth a pixel down. */
  readonly x0: number
  readonly slope: number
  /** +1 downward, -1 upward. */
  readonly way: 1 | -1
}

function edgesOf(polygon: readonly number[]): Edge[] {
  const edges: Edge[] = []
  for (let i = 0, n = polygon.length; i < n; i += 2) {
    const x1 = polygon[i]!
    const y1 = polygon[i + 1]!
    const x2 = polygon[(i + 2) % n]!
    const y2 = polygon[(i + 3) % n]!
    if (y1 === y2) continue
    const slope = (x2 - x1) / (y2 - y1)
    edges.push({
      top: Math.min(y1, y2),
      bottom: Math.max(y1, y2),
      x0: x1 - slope * y1,
      slope,
      way: y1 < y2 ? 1 : -1,
    })
  }
  return edges
}

/** Adds what lies inside on one horizontal line to the cover of each pixel. */
function addSpans(cover: Float32Array, active: readonly Edge[], y: number, rule: FillRule): void {
  const crossings = active
    .filter((e) => e.top <= y && e.bottom > y)
    .map((e) => ({ x: e.x0 + e.slope * y, way: e.way }))
    .sort((a, b) => a.x - b.x)
  let winding = 0
  crossings.forEach(({ x, way }, i) => {
    winding += rule === 'even-odd' ? 1 : way
    const inside = rule === 'even-odd' ? winding % 2 !== 0 : winding !== 0
    const end = crossings[i + 1]
    if (inside && end) addSpan(cover, Math.max(0, x), Math.min(cover.length, end.x))
  })
}

function addSpan(cover: Float32Array, from: number, to: number): void {
  for (let pixel = Math.floor(from); pixel < to; pixel++)
    cover[pixel]! += (Math.min(to, pixel + 1) - Math.max(from, pixel)) / LINES
}

function blend(pixels: Uint8Array, start: number, cover: Float32Array, rgb: readonly number[]): void {
  for (let i = 0; i < cover.length; i++) {
    const share = Math.min(1, cover[i]!)
    if (share <= 0) continue
    for (let k = 0; k < 3; k++) {
      const at = 3 * (start + i) + k
      pixels[at] = Math.round(pixels[at]! * (1 - share) + rgb[k]! * share)
    }
  }
}
