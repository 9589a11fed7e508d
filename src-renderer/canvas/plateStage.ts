/**
 * The Konva side of the picture: told what to show, never asked. One group a layer carries the camera. What stays while
 * something is dragged is painted on one canvas, what moves on another: each canvas costs the browser work in every frame
 * in which it is painted.
 */
import { toRadians } from '../../src-core/geometry/angles.ts'
import Konva from 'konva/lib/Core.js'
import { Shape } from 'konva/lib/Shape.js'
import { between, type View } from '../editor/camera.ts'
import type { Layer, SceneItem } from '../scene/items.ts'
import { paintItem, type Brush } from './paint.ts'
import type { Palette } from './palette.ts'
import { reconcile } from './reconcile.ts'

// Layers are painted when the stage says so, once a frame at most.
Konva.autoDrawEnabled = false

type Canvas = 'still' | 'moving'
/** Rearmost first. */
const LAYERS: readonly { readonly name: Layer; readonly on: Canvas }[] = [
  { name: 'machine', on: 'still' },
  { name: 'plate', on: 'still' },
  { name: 'work', on: 'moving' },
  { name: 'front', on: 'moving' },
  { name: 'overlay', on: 'moving' },
]

interface Node {
  readonly shape: Shape
  item: SceneItem
}
interface LayerState {
  readonly on: Canvas
  readonly group: Konva.Group
  readonly nodes: Map<string, Node>
  items: readonly SceneItem[] | null
}

export class PlateStage {
  readonly #stage: Konva.Stage
  readonly #canvases: Record<Canvas, Konva.Layer>
  readonly #layers: Record<Layer, LayerState>
  #view: View = { scale: 1, at: { x: 0, y: 0 }, turn: 0, width: 1, height: 1 }
  #spindleTurn = 0
  #palette: Palette
  readonly #unpainted = new Set<Canvas>()
  #frame: number | null = null
  #gliding: number | null = null

  constructor(container: HTMLDivElement, palette: Palette) {
    this.#palette = palette
    this.#stage = new Konva.Stage({ container, width: 1, height: 1, listening: false })
    const canvas = (): Konva.Layer => new Konva.Layer({ listening: false })
    this.#canvases = { still: canvas(), moving: canvas() }
    this.#stage.add(this.#canvases.still, this.#canvases.moving)
    const make = (on: Canvas): LayerState => {
      const group = new Konva.Group({ listening: false })
      this.#canvases[on].add(group)
      return { on, group, nodes: new Map(), items: null }
    }
    this.#layers = Object.fromEntries(LAYERS.map(({ name, on }) => [name, make(on)])) as Record<
      Layer,
      LayerState
    >
  }

  /** Where the camera stands, and how far the spindle is turned from how it was set up, degrees. */
  setView(view: View, spindleTurn: number): void {
    this.#stopGliding()
    this.#aimAll(view, spindleTurn)
  }

  /** As `setView`, but the picture goes there in so many ms. What lies under the pointer is as if it were there. */
  glideTo(view: View, spindleTurn: number, ms: number): void {
    this.#stopGliding()
    const from = this.#view
    const begun = performance.now()
    const next = () => {
      const share = Math.min(1, (performance.now() - begun) / ms)
      this.#gliding = share < 1 ? requestAnimationFrame(next) : null
      this.#aimAll(share < 1 ? between(from, view, 1 - (1 - share) ** 3) : view, spindleTurn)
      this.paint()
    }
    next()
  }

  #stopGliding(): void {
    if (this.#gliding !== null) cancelAnimationFrame(this.#gliding)
    this.#gliding = null
  }

  #aimAll(view: View, spindleTurn: number): void {
    const sized = view.width !== this.#view.width || view.height !== this.#view.height
    this.#view = view
    this.#spindleTurn = spindleTurn
    if (sized) this.#stage.size({ width: view.width, height: view.height })
    for (const { name } of LAYERS) this.#aim(name)
  }

  setPalette(palette: Palette): void {
    this.#palette = palette
    for (const { name } of LAYERS) this.#repaint(name)
  }

  show(name: Layer, items: readonly SceneItem[]): void {
    const state = this.#layers[name]
    if (state.items === items) return
    state.items = items
    reconcile(state.nodes, items, {
      create: (item) => this.#create(name, item),
      update: (node, item) => {
        node.item = item
      },
      destroy: (node) => node.shape.destroy(),
      place: (node, index) => node.shape.zIndex(index),
    })
    this.#repaint(name)
  }

  /** What is not worked on stands back. */
  fade(name: Layer, opacity: number): void {
    this.#layers[name].group.opacity(opacity)
    this.#repaint(name)
  }

  /** Paints at once what is to be painted; else it is painted with the next frame. */
  paint(): void {
    if (this.#frame !== null) cancelAnimationFrame(this.#frame)
    this.#frame = null
    // The scene alone: nothing is ever asked of Konva, so there is no picture of what can be hit.
    for (const canvas of this.#unpainted) this.#canvases[canvas].drawScene()
    this.#unpainted.clear()
  }

  destroy(): void {
    this.#stopGliding()
    if (this.#frame !== null) cancelAnimationFrame(this.#frame)
    this.#unpainted.clear()
    this.#stage.destroy()
  }

  #repaint(name: Layer): void {
    this.#unpainted.add(this.#layers[name].on)
    this.#frame ??= requestAnimationFrame(() => this.paint())
  }

  #turnOf(name: Layer): number {
    return this.#view.turn + (name === 'machine' || name === 'front' ? 0 : this.#spindleTurn)
  }

  #aim(name: Layer): void {
    const { scale, width, height, at, turn } = this.#view
    const { group } = this.#layers[name]
    const t = toRadians(turn)
    group.setAttrs({
      x: width / 2 - scale * (Math.cos(t) * at.x - Math.sin(t) * at.y),
      y: height / 2 + scale * (Math.sin(t) * at.x + Math.cos(t) * at.y),
      scaleX: scale,
      scaleY: -scale,
      rotation: -this.#turnOf(name),
    })
    this.#repaint(name)
  }

  #create(name: Layer, item: SceneItem): Node {
    const brush = (): Brush => ({ palette: this.#palette, scale: this.#view.scale, turn: this.#turnOf(name) })
    const node: Node = {
      item,
      shape: new Shape({
        listening: false,
        perfectDrawEnabled: false,
        sceneFunc: (context) => paintItem(context._context, node.item, brush()),
      }),
    }
    this.#layers[name].group.add(node.shape)
    return node
  }
}
