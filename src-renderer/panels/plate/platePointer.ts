/** From the browser's pointer events to the tool in hand, in plate millimetres. */
import type { Camera, View } from '../../editor/camera.ts'
import { panBy, toWorld, zoomAt } from '../../editor/camera.ts'
import type { PointerInput, Tool } from '../../editor/port.ts'
import { Pinch } from './pinch.ts'

export interface PlatePointerPort {
  readonly view: View
  /** Null while the picture only plays: nothing can be taken hold of. */
  readonly tool: Tool | null
  setCamera(camera: Camera): void
  setCursor(cursor: string): void
  /** Everything that follows from a move is to be on the screen with this frame. */
  settle(): void
}

type On = { readonly currentTarget: HTMLElement }

/**
 * A mouse tells of its moves more often than the picture can follow: the tool is moved once a frame, to where the
 * pointer is by then. What is pressed or let go finds the tool moved there first.
 */
export class PlatePointer {
  readonly #port: PlatePointerPort
  readonly #pinch: Pinch
  /** Where on the page the picture is; asked once a press, not once a move. */
  #corner = { x: 0, y: 0 }
  #pending: PointerEvent | null = null
  #frame: number | null = null

  constructor(port: PlatePointerPort) {
    this.#port = port
    this.#pinch = new Pinch((at, factor, dx, dy) => {
      const { view } = port
      port.setCamera(zoomAt({ ...view, ...panBy(view, dx, dy) }, at, factor))
    })
  }

  readonly down = (event: PointerEvent & On): void => {
    const { tool } = this.#port
    if (!tool) return
    this.#catchUp()
    this.#locate(event.currentTarget)
    event.currentTarget.focus({ preventScroll: true })
    event.currentTarget.setPointerCapture(event.pointerId)
    if (event.pointerType === 'touch' && this.#pinch.down(event, this.#corner)) return tool.cancel()
    if (event.button === 0) tool.down(this.#input(event))
    this.#port.setCursor(tool.cursor)
  }

  readonly move = (event: PointerEvent & On): void => {
    const { tool } = this.#port
    if (!tool) return
    if (event.buttons === 0) this.#locate(event.currentTarget)
    if (this.#pinch.move(event)) return
    this.#pending = event
    this.#frame ??= requestAnimationFrame(() => {
      this.#catchUp()
      this.#port.settle()
    })
  }

  readonly up = (event: PointerEvent): void => {
    const { tool } = this.#port
    if (!tool || this.#pinch.up(event)) return
    this.#catchUp()
    tool.up(this.#input(event))
    this.#port.setCursor(tool.cursor)
  }

  readonly lost = (event: PointerEvent): void => {
    this.#pinch.up(event)
    this.#forget()
    this.#port.tool?.cancel()
  }

  /** A move that is still to be made must not point at things again from outside. */
  readonly left = (event: PointerEvent): void => {
    if (event.buttons === 0) this.#forget()
  }

  /** The picture goes. */
  readonly end = (): void => this.#forget()

  readonly wheel = (event: WheelEvent & On): void => {
    event.preventDefault()
    this.#locate(event.currentTarget)
    const factor = Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.04 : 0.0015))
    const at = { x: event.clientX - this.#corner.x, y: event.clientY - this.#corner.y }
    this.#port.setCamera(zoomAt(this.#port.view, at, factor))
  }

  /** Moves the tool to where the pointer was last. */
  #catchUp(): void {
    const event = this.#pending
    this.#forget()
    const { tool } = this.#port
    if (!event || !tool) return
    tool.move(this.#input(event))
    this.#port.setCursor(tool.cursor)
  }

  #forget(): void {
    if (this.#frame !== null) cancelAnimationFrame(this.#frame)
    this.#frame = null
    this.#pending = null
  }

  #locate(element: HTMLElement): void {
    const box = element.getBoundingClientRect()
    this.#corner = { x: box.left, y: box.top }
  }

  #input(event: PointerEvent): PointerInput {
    const screen = { x: event.clientX - this.#corner.x, y: event.clientY - this.#corner.y }
    return {
      world: toWorld(this.#port.view, screen),
      screen,
      pxPerMm: this.#port.view.scale,
      shift: event.shiftKey,
      alt: event.altKey,
      touch: event.pointerType === 'touch',
      time: event.timeStamp,
    }
  }
}
