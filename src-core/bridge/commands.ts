/**
 * What the window can be told to do from outside the plate: names, labels and keys as plain data, so that toolbar,
 * keyboard and the system's menu say the same.
 */

export interface Command {
  readonly label: string
  /** As `KeyboardEvent.key`, with Ctrl+ and Shift+ before it; Ctrl stands for Command too. */
  readonly keys: readonly string[]
}

export const COMMANDS = {
  new: { label: 'New job', keys: ['Ctrl+n', 'n'] },
  open: { label: 'Job book', keys: ['Ctrl+o'] },
  save: { label: 'Save', keys: ['Ctrl+s'] },
  saveAs: { label: 'Save as', keys: ['Ctrl+Shift+s'] },
  import: { label: 'Import a drawing', keys: ['Ctrl+i'] },
  photograph: { label: 'Trace a photograph', keys: ['p'] },
  repeat: { label: 'What to fetch', keys: [] },
  lathe: { label: 'At the lathe', keys: ['Ctrl+j', 'j'] },
  run: { label: 'Record a run', keys: ['Ctrl+e'] },
  shop: { label: 'Shop library', keys: ['Ctrl+Shift+l'] },
  settings: { label: 'Settings', keys: ['Ctrl+,'] },
  undo: { label: 'Undo', keys: ['Ctrl+z'] },
  redo: { label: 'Redo', keys: ['Ctrl+y', 'Ctrl+Shift+z'] },
  draw: { label: 'Draw the part', keys: ['Ctrl+d', 'd'] },
  catalogue: { label: 'Hardware by size and material', keys: ['Ctrl+l', 'h'] },
  fourStraps: { label: 'Four straps where they hold', keys: ['Ctrl+Shift+k', '4'] },
  planner: { label: 'Plan counterweights', keys: ['Ctrl+b'] },
  copySetup: { label: 'Add a setup', keys: [] },
  turnByHand: { label: 'Turn by hand', keys: ['Ctrl+t', 't'] },
  sheet: { label: 'Setup sheet', keys: ['Ctrl+p'] },
  print: { label: 'Print the sheet', keys: ['Ctrl+Shift+p'] },
  fit: { label: 'Whole plate', keys: ['0', 'f'] },
  keys: { label: 'Keyboard', keys: ['F1', '?'] },
  about: { label: 'About Evenswing', keys: [] },
} as const satisfies Record<string, Command>

export type CommandName = keyof typeof COMMANDS

export const isCommand = (name: string): name is CommandName => Object.hasOwn(COMMANDS, name)

/** Told to the window when the user would rather save than lose changes by closing it; in no menu. */
export const SAVE_AND_CLOSE = 'saveAndClose'
