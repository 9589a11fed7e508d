/** What the picture of the plate shows: a display list for each layer, following the job, the results and the session. */
import { liesAcross } from '../../../src-core/job/schema.ts'
import { setupPlacement } from '../../../src-core/mounting/mount.ts'
import type { Camera } from '../../editor/camera.ts'
import { describeDrawing } from '../../scene/drawing.ts'
import type { SceneItem } from '../../scene/items.ts'
import { describeCrossSlide, describeMachine } from '../../scene/machine.ts'
import { describeOverlay } from '../../scene/overlay.ts'
import { describePassing } from '../../scene/passing.ts'
import { describePhotograph, photographGrips } from '../../scene/photograph.ts'
import { describePlate } from '../../scene/plate.ts'
import { describeFlats, describeLying } from '../../scene/lying.ts'
import { describeShelfSizes } from '../../scene/shelfSizes.ts'
import { describeShelfFace } from '../../scene/shelfFace.ts'
import { describeSideMachine, describeSideOverlay, describeSideWork } from '../../scene/side.ts'
import { slotLabelChoice, slotLabels } from '../../scene/slotLabels.ts'
import { setApart } from '../../scene/tagPlaces.ts'
import { describePart, describeWork, worstByItem } from '../../scene/work.ts'
import type { App } from '../../state/app.svelte.ts'
import { shelfView, shownView } from '../../state/shownView.ts'

type Items = readonly SceneItem[]

export interface PlateScene {
  readonly machine: Items
  readonly plate: Items
  readonly work: Items
  /** What the work passes while it is turned by hand. */
  readonly front: Items
  readonly overlay: Items
  /** Whether a photograph lies under the part. */
  readonly traced: boolean
}

/**
 * To be made while a component is.
 * @param camera through which it is looked at.
 */
export function plateScene(app: App, camera: () => Camera): PlateScene {
  const { session, results, jobs, draw, photograph: shown } = app
  const length = (mm: number) => results.format.length(mm)
  // By themselves: a job of which something else changes leaves their pictures as they are.
  const lathe = $derived(jobs.job.lathe)
  const faceplate = $derived(jobs.job.plate)
  const pointed = $derived({ selection: session.selection, hover: session.hover })
  const placement = $derived(setupPlacement(jobs.job.part, results.setup))
  const photograph = $derived(jobs.job.part.photograph)
  $effect(() => shown.want(photograph ?? null))

  const view = $derived(shownView(app))
  const fromShelf = $derived(view === 'shelf' ? shelfView(results.mounted) : null)
  const fromSide = $derived(view === 'side' ? results.mounted : null)
  /** The body that is drawn, where it lies across: it is drawn as it looks from the shelf. */
  const lying = $derived(
    jobs.job.part.bodies.filter(liesAcross).find((b) => b.id === draw.chosen?.body) ?? null,
  )
  const machine = $derived(
    fromSide
      ? describeSideMachine(fromSide)
      : draw.active || fromShelf
        ? []
        : describeMachine(lathe, faceplate.diameter, length),
  )
  // Under the hand names stay: they step aside once it lets go.
  let standing = ''
  const named = $derived.by(() => {
    if (!jobs.inGesture) standing = slotLabelChoice(faceplate, draw.active ? null : results.mounted)
    return standing
  })
  const plate = $derived(
    fromSide || (draw.active && lying)
      ? []
      : fromShelf
        ? describeShelfFace(fromShelf)
        : [
            ...describePlate(faceplate, pointed),
            ...slotLabels(faceplate, named, pointed),
            describeCrossSlide(lathe),
          ],
  )
  const traced = $derived(
    photograph && (draw.active || session.photographOnPlate)
      ? describePhotograph(photograph, shown.place(photograph), placement)
      : [],
  )
  const flags = $derived(worstByItem(results.analysis))
  const sideWork = $derived(fromSide ? describeSideWork(fromSide, pointed, flags) : [])
  const work = $derived.by(() => {
    if (!results.mounted) return traced
    if (fromSide) return setApart(sideWork, camera())
    if (fromShelf) return describeWork(fromShelf, pointed, flags)
    if (draw.active && lying) return describeLying(jobs.job.part, placement, lying)
    if (draw.active) return [...traced, ...describePart(results.mounted, traced.length > 0)]
    return [...traced, ...describeWork(results.mounted, pointed, flags)]
  })
  const front = $derived(
    session.spindleTurn !== null && results.mounted
      ? describePassing(results.mounted, results.analysis, length)
      : [],
  )
  const drawing = $derived(
    describeDrawing(jobs.job.part, placement, {
      chosen: draw.ring ? draw.chosen : null,
      also: draw.together.slice(1),
      vertex: draw.vertex,
      edge: draw.ring && draw.edge !== null && draw.edge < draw.ring.length ? draw.edge : null,
      preview: draw.preview,
      grips: draw.tool.name === 'edit',
    }),
  )
  const overlay = $derived.by(() => {
    if (draw.active)
      return draw.tool.name === 'photograph'
        ? [...photographGrips(photograph, placement), ...drawing]
        : drawing
    if (!results.mounted) return []
    if (fromSide) return describeSideOverlay(fromSide, session.guide, (mm) => results.format.size(mm))
    if (fromShelf)
      return describeShelfSizes(fromShelf, session.selection, session.guide, (mm) => results.format.size(mm))
    if (session.pickingFlat) return describeFlats(jobs.job.part, placement, session.guide)
    return describeOverlay(results.mounted, results.analysis, {
      selection: session.selection,
      guide: session.guide,
      highlight: session.highlight,
      turning: session.spindleTurn !== null,
      length,
    })
  })
  return {
    get machine() {
      return machine
    },
    get plate() {
      return plate
    },
    get work() {
      return work
    },
    get front() {
      return front
    },
    get overlay() {
      return overlay
    },
    get traced() {
      return traced.length > 0
    },
  }
}
