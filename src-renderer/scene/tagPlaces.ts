/** Where names stand that would lie upon each other: beside or over, none hidden. Pixels, x right and y down. */
import { toScreen, type Camera } from '../editor/camera.ts'
import type { SceneItem } from './items.ts'

type TagItem = Extract<SceneItem, { kind: 'text' }>
const isTag = (item: SceneItem): item is TagItem => item.kind === 'text' && item.role === 'tag'

/** Middle and size of a name, with what keeps it from the next. */
export interface NamePlace {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}
/** As names of pieces are painted. */
const HIGH = 18
const width = (text: string) => 8 * text.length + 10

export const meet = (a: NamePlace, b: NamePlace): boolean =>
  Math.abs(a.x - b.x) < (a.w + b.w) / 2 && Math.abs(a.y - b.y) < (a.h + b.h) / 2

/** Where it is wanted if that is free, else the nearest free place in steps of half a name. */
export function freePlace(wanted: NamePlace, taken: readonly NamePlace[]): NamePlace {
  const isFree = (p: NamePlace) => !taken.some((t) => meet(p, t))
  if (isFree(wanted)) return wanted
  const steps = [...Array(2 * taken.length + 3).keys()].map((i) => i - taken.length - 1)
  let best = wanted
  let least = Infinity
  for (const i of steps)
    for (const j of steps) {
      const p = { ...wanted, x: wanted.x + (i * wanted.w) / 2, y: wanted.y + (j * wanted.h) / 2 }
      const far = Math.hypot(p.x - wanted.x, p.y - wanted.y)
      if (far < least && isFree(p)) [best, least] = [p, far]
    }
  return best
}

/** Names of pieces moved so that each can be read, seen through `camera`; the one selected keeps its place. */
export function setApart(items: readonly SceneItem[], camera: Camera): SceneItem[] {
  const taken: NamePlace[] = []
  const moved = new Map<string, SceneItem>()
  const place = (tag: TagItem) => {
    const at = toScreen({ ...camera, width: 0, height: 0 }, tag.at)
    const { x = 0, y = 0 } = tag.offset ?? {}
    const free = freePlace({ x: at.x + x, y: at.y + y, w: width(tag.text), h: HIGH }, taken)
    taken.push(free)
    moved.set(tag.id, { ...tag, offset: { x: free.x - at.x, y: free.y - at.y } })
  }
  const tags = items.filter(isTag)
  const selected = (tag: TagItem) => tag.emphasis?.selected === true
  tags.filter(selected).forEach(place)
  tags.filter((t) => !selected(t)).forEach(place)
  return items.map((item) => moved.get(item.id) ?? item)
}
