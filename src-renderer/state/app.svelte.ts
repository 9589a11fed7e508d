/** The window's whole state, put together once and handed down by context. */
import { getContext, setContext } from 'svelte'
import type { Shell } from '../../src-core/bridge/bookContract.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { Job } from '../../src-core/job/schema.ts'
import type { Guide, Target } from '../editor/target.ts'
import type { ToolPort } from '../editor/port.ts'
import { Autosave } from './autosave.svelte.ts'
import { AtLathe } from './atLathe.svelte.ts'
import { blankJob, START } from './blankJob.ts'
import { JobBook } from './book.svelte.ts'
import { DrawBoard } from './drawBoard.svelte.ts'
import { Files } from './files.svelte.ts'
import { Importer, type ImportPort } from './importer.svelte.ts'
import { JobStore } from './document.svelte.ts'
import { PhotographDesk } from './photographDesk.svelte.ts'
import { PictureWork, type PicturePort } from './pictureWork.ts'
import { Planner, type PlannerPort } from './planner.svelte.ts'
import { Results } from './results.svelte.ts'
import { showFault } from './showFault.ts'
import { Session } from './session.svelte.ts'
import { SettingsStore } from './settings.svelte.ts'
import { ShownPhotograph } from './shownPhotograph.svelte.ts'
import { Sheets } from './sheets.svelte.ts'
import { putStrapsToCome } from './straps.ts'
import { ShopLibrary } from './shopLibrary.svelte.ts'

export interface App {
  readonly shell: Shell
  readonly jobs: JobStore
  readonly session: Session
  readonly results: Results
  readonly files: Files
  readonly planner: Planner
  readonly draw: DrawBoard
  readonly importer: Importer
  readonly sheets: Sheets
  readonly book: JobBook
  readonly autosave: Autosave
  readonly settings: SettingsStore
  readonly shop: ShopLibrary
  /** What the photograph dialog works on. */
  readonly desk: PhotographDesk
  readonly photograph: ShownPhotograph
  readonly pictures: PictureWork
  /** The mode for standing at the machine. */
  readonly lathe: AtLathe
}

/** The long work, each off the window's thread. */
export interface Workers {
  readonly planner: () => PlannerPort
  readonly importer: () => ImportPort
  readonly pictures: () => PicturePort
}

/** A shell that tells nothing and knows no paths. */
export const NO_SHELL: Shell = {
  subscribe: () => () => undefined,
  adoptDropped: async () => ({ ok: true, value: null }),
}

export function createApp(host: Host, workers: Workers, shell: Shell = NO_SHELL): App {
  const jobs = new JobStore(blankJob(START))
  const session = new Session()
  const results = new Results(jobs, session)
  const files = new Files(host, jobs, session)
  const draw = new DrawBoard(jobs, results, session)
  files.onshow = () => {
    session.strapsToCome = null
    draw.chosen = null
    draw.leave()
  }
  draw.ondrawn = () => putStrapsToCome({ jobs, session, results })
  files.saving.onfault = (fault) => showFault({ jobs, session, draw }, fault)
  const settings = new SettingsStore(host, session, jobs)
  const pictures = new PictureWork(workers.pictures)
  return {
    shell,
    jobs,
    session,
    results,
    files,
    draw,
    planner: new Planner(jobs, results, workers.planner),
    importer: new Importer(workers.importer),
    sheets: new Sheets(jobs, results, files),
    book: new JobBook(host, session, files),
    autosave: new Autosave(host, jobs, session, files),
    settings,
    shop: new ShopLibrary(host, { jobs, session, results, files }),
    desk: new PhotographDesk(jobs, pictures),
    photograph: new ShownPhotograph(pictures),
    pictures,
    lathe: new AtLathe(host, { jobs, session, results, files, settings }, workers.planner),
  }
}

/** What the tools may see and do. `pan` comes from the picture, which knows its size. */
export function toolPort(app: App, pan: (dx: number, dy: number) => void): ToolPort {
  const { jobs, session, results } = app
  return {
    get job(): Job {
      return jobs.job
    },
    get setupId() {
      return results.setup.id
    },
    get mounted() {
      return results.mounted
    },
    get selection() {
      return session.selection
    },
    show: (target: Target) => session.show(target, jobs.job),
    select: (target: Target | null) => {
      session.selection = target
    },
    hover: (target: Target | null) => {
      session.hover = target
    },
    guide: (guide: Guide | null) => {
      session.guide = guide
    },
    pan,
    begin: (label) => jobs.begin(label),
    replace: (job) => jobs.replace(job),
    commit: () => jobs.commit(),
    cancel: () => jobs.cancel(),
    length: (mm) => results.format.length(mm),
  }
}

const KEY = Symbol('app')
export const provideApp = (app: App): App => setContext(KEY, app)
export const useApp = (): App => getContext<App>(KEY)
