/** Where the picture of the plate is looked at from: fitted to what is shown, beside what lies over it, until a hand moves it. */
import { untrack } from 'svelte'
import { setupPlacement } from '../../../src-core/mounting/mount.ts'
import { clearOf, fit, freeOf, type Camera, type Insets, type Size, type View } from '../../editor/camera.ts'
import { DRAWING_ROOM, partCamera, ringInView } from '../../editor/partView.ts'
import { REACH } from '../../editor/reach.ts'
import { machineExtent } from '../../scene/machine.ts'
import { shelfExtent } from '../../scene/shelfFace.ts'
import { sideExtent } from '../../scene/side.ts'
import type { App } from '../../state/app.svelte.ts'
import { shelfView, shownView } from '../../state/shownView.ts'

/** px: between what lies over the picture and what is fitted beside it. */
const BESIDE = 16
/** px: two figures above, one with three lines under it below. */
const FIGURES: Insets = { top: 62, bottom: 96, sides: 0 }
/** px: the choice of pictures above, typed figures below. */
const OVER: Insets = { top: 66, bottom: 110, sides: 40 }

export interface FittedView {
  readonly view: View
  /** What it is fitted to, in a word: another one is another purpose. */
  readonly purpose: string
}

/**
 * To be made while a component is.
 * @param size of the picture, px. @param tools px that the tools of drawing take of it above and below.
 */
export function fittedView(
  app: App,
  size: () => Size,
  tools: () => { readonly bar: number; readonly foot: number },
): FittedView {
  const { session, results, jobs, draw } = app
  const lathe = $derived(jobs.job.lathe)
  const plate = $derived(jobs.job.plate)
  const placement = $derived(setupPlacement(jobs.job.part, results.setup))
  /** Another picture is shown whole. */
  const picture = $derived(jobs.job.part.photograph?.picture)
  const shown = $derived(shownView(app))
  /** What the tools and fields of drawing take of the view. */
  let room: Insets = $state.raw(DRAWING_ROOM)
  // Not under a hand that drags or is about to click again.
  $effect(() => {
    if (!draw.active || jobs.inGesture) return
    const { bar, foot } = tools()
    const want = {
      ...DRAWING_ROOM,
      top: Math.max(DRAWING_ROOM.top, bar + BESIDE),
      bottom: Math.max(DRAWING_ROOM.bottom, foot + BESIDE),
    }
    if (want.top === room.top && want.bottom === room.bottom) return
    const later = setTimeout(() => (room = want), REACH.doubleClick + 50)
    return () => clearTimeout(later)
  })
  /** Where the view is narrower than high, the figures stand above and below the plate, not beside it. */
  const figures: Insets = $derived(size().width < size().height ? FIGURES : { top: 0, bottom: 0, sides: 0 })
  const camera = $derived.by(() => {
    void picture
    return session.camera ?? (draw.active ? drawingCamera(room) : plateCamera())
  })
  const view: View = $derived({ ...camera, ...size() })

  function drawingCamera(now: Insets): Camera {
    return untrack(() =>
      partCamera(jobs.job.part, placement, size(), now, draw.drawing ? draw.preview?.path : []),
    )
  }
  /** What else than the plate is shown whole; not fitted anew while something is dragged there. */
  function besides() {
    if (shown === 'plan') return null
    return untrack(() => {
      const { mounted } = results
      const seen = shown === 'shelf' ? shelfView(mounted) : null
      return seen ? shelfExtent(seen) : mounted && sideExtent(mounted)
    })
  }
  function plateCamera(): Camera {
    const other = besides()
    if (other) return clearOf(fit(other, freeOf(size(), OVER), 24), size(), OVER)
    const extent = machineExtent(lathe, plate.diameter)
    return clearOf(fit(extent, freeOf(size(), figures), 10), size(), figures)
  }

  $effect(() => {
    void draw.reveal
    untrack(() => {
      const ring = draw.drawing ? draw.preview?.path : draw.ring
      if (draw.active && ring && !ringInView(view, placement, ring, room))
        session.camera = drawingCamera(room)
    })
  })

  return {
    get view() {
      return view
    },
    get purpose() {
      return session.camera ? BY_HAND : `${draw.active} ${room.top} ${room.bottom}`
    },
  }
}

/** Its purpose where a hand has moved it. */
export const BY_HAND = 'by hand'
