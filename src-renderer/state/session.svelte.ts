/** What the window shows just now: never saved, never undone. */
import { SvelteSet } from 'svelte/reactivity'
import type { Point } from '../../src-core/geometry/types.ts'
import type { Job } from '../../src-core/job/schema.ts'
import type { Camera } from '../editor/camera.ts'
import type { CatalogueKindName } from '../../src-core/hardware/catalogue.ts'
import type { ClampPattern } from '../../src-core/hardware/usualClamp.ts'
import type { Guide, Target } from '../editor/target.ts'
import { PIECE_STEPS } from './pieceSteps.ts'

export type StepName = 'machine' | 'part' | 'mounting' | 'clamps' | 'counterweights' | 'speed' | 'sheet'
export type DialogName =
  | 'save'
  | 'fetch'
  | 'run'
  | 'recover'
  | 'settings'
  | 'setup'
  | 'shop'
  | 'new'
  | 'keys'
  | 'discard'
  | 'planner'
  | 'block'
  | 'import'
  | 'conflict'
  | 'catalogue'
  | 'photograph'
  | 'unsaid'
  | 'about'
/** Seen from the tailstock, from the side, or square to the shelf that the part is seated on. */
export type ViewName = 'plan' | 'side' | 'shelf'
export type Theme = 'system' | 'light' | 'dark'

/** A place on the plate that a finding points at. */
export interface Highlight {
  readonly item: string
  readonly at: Point | null
}

export interface NoticeAction {
  readonly label: string
  readonly run: () => void
  /** It opens nothing, so that it may be done while a dialog is open. */
  readonly overDialog?: boolean
}

export interface Notice {
  readonly kind: 'done' | 'fault'
  readonly text: string
  /** About the window, not about what is asked in a dialog: it waits until that is closed. */
  readonly ofWindow?: boolean
  /** What to do about it at once. */
  readonly action?: NoticeAction
  /** Whether there is still something to do about it. */
  readonly holds?: (job: Job) => boolean
}

/** The step whose fields belong to a thing on the plate. */
function stepOf(target: Target, job: Job, setupId: string): StepName {
  if (target.kind === 'slot' || target.kind === 'hole') return 'machine'
  if (target.kind === 'part' || target.kind === 'turn-handle') return 'mounting'
  const setup = job.setups.find((s) => s.id === setupId) ?? job.setups[0]
  const kind = setup?.hardware.find((h) => h.id === target.id)?.kind
  return kind ? PIECE_STEPS[kind] : 'clamps'
}

export class Session {
  setupId: string = $state('')
  step: StepName | null = $state(null)
  selection: Target | null = $state.raw(null)
  hover: Target | null = $state.raw(null)
  guide: Guide | null = $state.raw(null)
  highlight: Highlight | null = $state.raw(null)
  camera: Camera | null = $state.raw(null)
  #dialog: DialogName | null = $state(null)
  /** Questions that wait until the dialog that is open has been closed. */
  readonly #waiting: DialogName[] = []
  /** Something was given in the open dialog that is kept nowhere yet. */
  unkept: boolean = $state(false)
  #notice: Notice | null = $state.raw(null)
  /** Waits until the dialog that is open has been closed. */
  #later: Notice | null = null
  /** What the catalogue of hardware opens at. */
  catalogueKind: CatalogueKindName = $state('strap')
  /** Degrees the spindle is turned in the picture; null while it stands as set up. */
  spindleTurn: number | null = $state(null)
  /** The next click on the plate says which point of the part goes onto the axis. */
  picking: boolean = $state(false)
  /** The next click on the plate says which flat of the part lies on its shelf. */
  pickingFlat: boolean = $state(false)
  /** What one can begin with is asked, over everything else. */
  welcome: boolean = $state(false)
  /** The picture in the middle. */
  #view: ViewName = $state('plan')
  /** The small picture beside the findings. */
  picture: 'vectors' | 'force' | 'side' | 'weights' = $state('vectors')
  theme: Theme = $state('system')
  /** Whether the photograph shows under the part on the plate too, not only while it is drawn. */
  photographOnPlate: boolean = $state(false)
  systemDark: boolean = $state(false)
  /** The system paints the window in its own few colours. */
  forcedColours: boolean = $state(false)
  /** More contrast is wished for, or colours are forced. */
  strong: boolean = $state(false)
  /** The picture nearer or moved by pixels; the view, which knows its size, sets them. */
  zoomBy: ((factor: number) => void) | null = null
  panBy: ((dx: number, dy: number) => void) | null = null
  /** The part on the plate stands in for one whose outline is still to come. */
  standIn: boolean = $state(false)
  /** Straps that go on four at a time once the part has its own outline. */
  strapsToCome: ClampPattern | null = null
  /** What is ticked on the list of things to fetch, for this time only. */
  readonly fetched = new SvelteSet<string>()
  /** Takes the job out of the window as a file, past the host; null before it is known how. */
  copyOut: (() => void) | null = null
  /** What to do once the user agrees to leave unsaved changes. */
  afterDiscard: (() => void) | null = $state.raw(null)

  get view(): ViewName {
    return this.#view
  }
  /** Each picture is shown whole at first. */
  set view(view: ViewName) {
    if (view !== this.#view) this.camera = null
    this.#view = view
    this.picking = false
    this.pickingFlat = false
  }

  get dialog(): DialogName | null {
    return this.#dialog
  }
  set dialog(name: DialogName | null) {
    this.#dialog = name ?? this.#waiting.shift() ?? null
    if (this.#dialog !== null || this.#later === null) return
    this.#notice = this.#later
    this.#later = null
  }
  get notice(): Notice | null {
    return this.#notice
  }
  set notice(notice: Notice | null) {
    if (notice?.ofWindow && this.#dialog !== null) this.#later = notice
    else this.#notice = notice
  }
  /** For what the window asks of its own accord: never in the place of what somebody is filling in. */
  askWhenFree(name: DialogName): void {
    if (this.#dialog === null) this.#dialog = name
    else if (this.#dialog !== name && !this.#waiting.includes(name)) this.#waiting.push(name)
  }

  get dark(): boolean {
    return this.theme === 'system' || this.forcedColours ? this.systemDark : this.theme === 'dark'
  }

  /** Chosen, with its fields open beside the plate. */
  show(target: Target, job: Job): void {
    this.selection = target
    this.step = stepOf(target, job, this.setupId)
  }

  openCatalogue(kind: CatalogueKindName): void {
    this.catalogueKind = kind
    this.dialog = 'catalogue'
  }

  /** Back to how a job looks when it is opened. */
  reset(): void {
    this.selection = null
    this.hover = null
    this.guide = null
    this.highlight = null
    this.camera = null
    this.spindleTurn = null
    this.picking = false
    this.pickingFlat = false
    this.#view = 'plan'
    this.welcome = false
    this.standIn = false
    this.strapsToCome = null
    this.fetched.clear()
  }
}
