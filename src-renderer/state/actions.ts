/** One list of what can be done, shared by toolbar, menus and keyboard. */
import { takeAllOff } from '../editor/edits/nextSetup.ts'
import { duplicateSetup } from '../editor/edits/setups.ts'
import { usualPattern } from '../editor/edits/fourStraps.ts'
import { keyStep } from '../editor/snap.ts'
import { shelfView } from './shownView.ts'
import { COMMANDS, type Command, type CommandName } from '../../src-core/bridge/commands.ts'
import { COPY_OUT } from './ask.ts'
import type { App } from './app.svelte.ts'
import { printSheets } from './printing.ts'
import { putFourStraps } from './straps.ts'
import type { StepName } from './session.svelte.ts'
import { nudgeSelection, removeSelection, selectNext, turnSelection } from './selectionMoves.ts'

export interface Action extends Command {
  readonly enabled: () => boolean
  readonly run: () => void
  /** Only where the plate has the focus. */
  readonly onPlate?: boolean
}

export type ActionName =
  | CommandName | 'copyOut' | 'takeAllOff' | 'figures' | 'closer' | 'further' | 'panLeft' | 'panRight' | 'panUp' | 'panDown'
  | 'nextView' | 'remove' | 'deselect' | 'next' | 'previous' | 'left' | 'right' | 'up' | 'down' | 'leftFine' | 'rightFine' | 'upFine' | 'downFine'
  | 'step1' | 'step2' | 'step3' | 'step4' | 'step5' | 'step6' | 'step7'
  | 'turnLeft' | 'turnRight' | 'turnLeftFine' | 'turnRightFine' // prettier-ignore

export type Actions = Readonly<Record<ActionName, Action>>

const always = () => true
/** Pixels that a key moves the picture by. */
const PAN = 60

export function createActions(app: App): Actions {
  const { jobs, session, files, book, results, draw, sheets } = app
  const selected = () => session.selection !== null
  const turn = (by: number) => () => turnSelection(app, by)
  const plate = (label: string, keys: string[], run: () => void, enabled = selected): Action => ({
    label,
    keys,
    enabled,
    run,
    onPlate: true,
  })
  /** A step in the units shown, which its label says. */
  const move = (way: string, keys: string[], x: number, y: number, isFine = false): Action => {
    const step = () => keyStep(jobs.job.displayUnits, isFine)
    return {
      ...plate(way, keys, () => nudgeSelection(app, x * step(), y * step())),
      get label() {
        return `${way} ${results.format.length(step())}`
      },
    }
  }
  return {
    new: {
      ...COMMANDS.new,
      enabled: always,
      run: () => files.leaving(() => (session.dialog = 'new')),
    },
    open: { ...COMMANDS.open, enabled: always, run: () => void book.open() },
    repeat: { ...COMMANDS.repeat, enabled: always, run: () => (session.dialog = 'fetch') },
    lathe: {
      ...COMMANDS.lathe,
      enabled: () => results.analysis !== null && !draw.active,
      run: () => void app.lathe.enter(),
    },
    run: { ...COMMANDS.run, enabled: always, run: () => (session.dialog = 'run') },
    shop: { ...COMMANDS.shop, enabled: always, run: () => (session.dialog = 'shop') },
    settings: { ...COMMANDS.settings, enabled: always, run: () => (session.dialog = 'settings') },
    save: { ...COMMANDS.save, enabled: always, run: () => void files.save() },
    saveAs: { ...COMMANDS.saveAs, enabled: always, run: () => void files.saveAs() },
    copyOut: { label: COPY_OUT, keys: [], enabled: always, run: () => files.copyOut() },
    undo: {
      ...COMMANDS.undo,
      enabled: () => jobs.undoLabel !== null || draw.drawing,
      // In the middle of a shape it takes back the last point, not the step before the shape.
      run: () => {
        if (!draw.drawing || !draw.tool.key('Backspace')) jobs.undo()
      },
    },
    redo: { ...COMMANDS.redo, enabled: () => jobs.redoLabel !== null, run: () => jobs.redo() },
    sheet: { ...COMMANDS.sheet, enabled: always, run: () => (sheets.shown = !sheets.shown) },
    fourStraps: {
      ...COMMANDS.fourStraps,
      enabled: () => results.mounted !== null,
      run: () => putFourStraps(app, usualPattern(jobs.job, results.setup.id)),
    },
    planner: {
      ...COMMANDS.planner,
      enabled: () => results.analysis !== null,
      run: () => (session.dialog = 'planner'),
    },
    copySetup: {
      ...COMMANDS.copySetup,
      enabled: always,
      run: () => (jobs.job.part.bores.length > 0 ? (session.dialog = 'setup') : copySetup(app)),
    },
    print: { ...COMMANDS.print, enabled: always, run: () => printSheets(app) },
    turnByHand: {
      ...COMMANDS.turnByHand,
      enabled: () => results.mounted !== null && !draw.active,
      run: () => (session.spindleTurn = session.spindleTurn === null ? 0 : null),
    },
    draw: {
      ...COMMANDS.draw,
      enabled: always,
      run: () => (draw.active ? draw.leave() : draw.enter()),
    },
    import: { ...COMMANDS.import, enabled: always, run: () => (session.dialog = 'import') },
    photograph: { ...COMMANDS.photograph, enabled: always, run: () => (session.dialog = 'photograph') },
    catalogue: { ...COMMANDS.catalogue, enabled: always, run: () => (session.dialog = 'catalogue') },
    takeAllOff: {
      label: 'Take all hardware off',
      keys: ['Ctrl+Shift+Backspace'],
      enabled: () => results.setup.hardware.length > 0,
      run: () => {
        session.selection = null
        jobs.edit('Take all hardware off', (job) => takeAllOff(job, results.setup.id))
      },
    },
    figures: plate('Its figures, to type', ['Enter'], () => showFigures(app)),
    closer: plate('Closer', ['+', '='], () => session.zoomBy?.(1.25), always),
    further: plate('Further', ['-'], () => session.zoomBy?.(0.8), always),
    panLeft: plate('Move the picture left', ['Ctrl+ArrowLeft'], () => session.panBy?.(PAN, 0), always),
    panRight: plate('Move the picture right', ['Ctrl+ArrowRight'], () => session.panBy?.(-PAN, 0), always),
    panUp: plate('Move the picture up', ['Ctrl+ArrowUp'], () => session.panBy?.(0, PAN), always),
    panDown: plate('Move the picture down', ['Ctrl+ArrowDown'], () => session.panBy?.(0, -PAN), always),
    fit: { ...COMMANDS.fit, enabled: always, run: () => (session.camera = null) },
    nextView: {
      label: 'Plan, side and shelf in turn',
      keys: ['v'],
      enabled: () => !draw.active && results.mounted !== null,
      run: () => nextView(app),
    },
    keys: { ...COMMANDS.keys, enabled: always, run: () => (session.dialog = 'keys') },
    about: { ...COMMANDS.about, enabled: always, run: () => (session.dialog = 'about') },
    deselect: {
      label: 'Select nothing',
      keys: ['Escape'],
      enabled: always,
      run: () => escape(app),
      onPlate: true,
    },
    remove: plate(
      'Take off the plate',
      ['Delete', 'Backspace'],
      () => removeSelection(app),
      () => session.selection?.kind === 'piece',
    ),
    next: plate('Next thing on the plate', ['.'], () => selectNext(app, 1), always),
    previous: plate('Thing before', [','], () => selectNext(app, -1), always),
    left: move('Left', ['ArrowLeft'], -1, 0),
    right: move('Right', ['ArrowRight'], 1, 0),
    up: move('Up, or outward in a slot,', ['ArrowUp'], 0, 1),
    down: move('Down, or inward in a slot,', ['ArrowDown'], 0, -1),
    leftFine: move('Left', ['Shift+ArrowLeft'], -1, 0, true),
    rightFine: move('Right', ['Shift+ArrowRight'], 1, 0, true),
    upFine: move('Up', ['Shift+ArrowUp'], 0, 1, true),
    downFine: move('Down', ['Shift+ArrowDown'], 0, -1, true),
    ...openSteps(session),
    turnLeft: plate('Turn 15° counter-clockwise', ['['], turn(15)),
    turnRight: plate('Turn 15° clockwise', [']'], turn(-15)),
    turnLeftFine: plate('Turn 1° counter-clockwise', ['{'], turn(1)),
    turnRightFine: plate('Turn 1° clockwise', ['}'], turn(-1)),
  }
}

const STEP_ORDER: readonly StepName[] = [
  'machine',
  'part',
  'mounting',
  'clamps',
  'counterweights',
  'speed',
  'sheet',
]

/** Alt and a digit opens a step, with the keyboard in it. */
function openSteps(session: App['session']): Record<`step${1 | 2 | 3 | 4 | 5 | 6 | 7}`, Action> {
  const open = (n: number): Action => ({
    label: `Step ${n}`,
    keys: [`Alt+${n}`],
    enabled: always,
    run: () => {
      const name = STEP_ORDER[n - 1]!
      session.step = name
      requestAnimationFrame(() => document.getElementById(`step-${name}`)?.focus())
    },
  })
  return {
    step1: open(1),
    step2: open(2),
    step3: open(3),
    step4: open(4),
    step5: open(5),
    step6: open(6),
    step7: open(7),
  }
}

/** Without a bore to ask for: the same setup once more. */
function copySetup({ jobs, session, results }: App): void {
  const { job, id } = duplicateSetup(jobs.job, results.setup.id)
  jobs.edit('Add a setup', () => job)
  session.setupId = id
}

function escape({ session, jobs }: App): void {
  if (session.spindleTurn !== null) session.spindleTurn = null
  else if (jobs.inGesture) jobs.cancel()
  else session.selection = null
}

/** From the plate to the fields of what is selected there. */
function showFigures({ jobs, session }: App): void {
  const { selection } = session
  if (!selection) return
  session.show(selection, jobs.job)
  requestAnimationFrame(() => document.getElementById(`step-${session.step}`)?.focus())
}

function nextView({ session, results }: App): void {
  const views = shelfView(results.mounted)
    ? (['plan', 'side', 'shelf'] as const)
    : (['plan', 'side'] as const)
  const now = views.findIndex((v) => v === session.view)
  session.view = views[(now + 1) % views.length]!
}
