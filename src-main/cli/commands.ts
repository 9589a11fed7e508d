/**
 * The commands of the command line: words, options, help. What a command does is loaded when it is called, so that
 * `--help` and a mistyped word do not wait for the libraries.
 */
import type { Command } from './command.ts'
import { SHEET_FORMATS, SHEET_FORMATS_DEFAULT } from './sheetFormats.ts'

const SETUP = { setup: { type: 'string' } } as const
const JSON_FLAG = { json: { type: 'boolean' } } as const
const SETUP_HELP = ['--setup ID', 'the setup to look at (default: the first)'] as const
const JSON_HELP = ['--json', 'print the result as JSON'] as const

export const COMMANDS: Readonly<Record<string, Command>> = {
  check: {
    usage: 'check JOB [--setup ID] [--json]',
    summary: 'masses, heavy side, pull at each speed, ceiling, clearances, clamps, findings',
    help: [SETUP_HELP, JSON_HELP],
    options: { ...SETUP, ...JSON_FLAG },
    positionals: ['JOB'],
    run: async (call) => (await import('./commands/check.ts')).check(call),
  },
  plan: {
    usage: 'plan JOB [--apply N --out JOB2] [--setup ID] [--json]',
    summary: 'counterweights from the stock, best first',
    help: [
      ['--apply N', 'put plan N (1 is the best) into the job'],
      ['--out JOB2', 'file for the job with the plan applied'],
      SETUP_HELP,
      JSON_HELP,
    ],
    options: { ...SETUP, ...JSON_FLAG, apply: { type: 'string' }, out: { type: 'string' } },
    positionals: ['JOB'],
    run: async (call) => (await import('./commands/plan.ts')).plan(call),
  },
  trim: {
    usage: 'trim JOB --readings FILE [--take-off] [--setup ID] [--json]',
    summary: 'unbalance measured at the machine: beside the computed one, and corrected from the stock',
    help: [
      [
        '--readings FILE',
        'JSON of a roll test, of four runs (amplitudes) or of one trial with phase; see README',
      ],
      ['--take-off', 'counterweights that are on and not fixed may come off again'],
      SETUP_HELP,
      JSON_HELP,
    ],
    options: { ...SETUP, ...JSON_FLAG, readings: { type: 'string' }, 'take-off': { type: 'boolean' } },
    positionals: ['JOB'],
    run: async (call) => (await import('./commands/trim.ts')).trim(call),
  },
  sheet: {
    usage:
      'sheet JOB --out DIR [--format svg,pdf,dxf,png] [--setup ID | --all] [--template | --cards] [--json]',
    summary: "the setup drawing, or the plate's 1:1 paper template, written into a folder",
    help: [
      ['--out DIR', 'folder for the files; made where it is missing'],
      ['--format LIST', `any of ${SHEET_FORMATS.join(',')} (default: ${SHEET_FORMATS_DEFAULT.join(',')})`],
      ['--all', 'every setup of the job; as PDF all sheets in one file'],
      ['--template', 'the plate at 1:1 over as many sheets of paper as it takes (default: A4, PDF)'],
      ['--cards', 'one A5 card for each step at the machine (default: PDF)'],
      ['--size SHEET', 'A4 to A1, or ANSI-A to ANSI-D'],
      ['--scale 1:N', 'sheet over model, or auto'],
      ['--projection WHICH', 'first or third angle'],
      ['--owner, --by, --approved, --revision TEXT', 'fields of the title block'],
      ['', 'What is not given comes from the job, and else is chosen.'],
      SETUP_HELP,
      JSON_HELP,
    ],
    options: {
      ...SETUP,
      ...JSON_FLAG,
      out: { type: 'string' },
      format: { type: 'string', multiple: true },
      all: { type: 'boolean' },
      template: { type: 'boolean' },
      cards: { type: 'boolean' },
      size: { type: 'string' },
      scale: { type: 'string' },
      projection: { type: 'string' },
      owner: { type: 'string' },
      by: { type: 'string' },
      approved: { type: 'string' },
      revision: { type: 'string' },
    },
    positionals: ['JOB'],
    run: async (call) => (await import('./commands/sheet.ts')).sheet(call),
  },
  import: {
    usage: 'import FILE --out JOB [--unit mm] [--thickness 20] [--json]',
    summary: 'a new job whose part comes from a drawing (DXF, SVG, CSV) or a mesh (STL)',
    help: [
      ['--out JOB', 'file for the new job'],
      ['--unit UNIT', 'mm, cm, m, in or ft: the unit of the file (default: what it says, else mm)'],
      ['--thickness MM', 'thickness of a part that comes from a drawing (default: 20)'],
      JSON_HELP,
    ],
    options: {
      ...JSON_FLAG,
      out: { type: 'string' },
      unit: { type: 'string' },
      thickness: { type: 'string' },
    },
    positionals: ['FILE'],
    run: async (call) => (await import('./commands/importFile.ts')).importFile(call),
  },
  find: {
    usage: 'find SUM [--in DIR] [--json]',
    summary: 'the job and setup of a sheet, by the check sum in its title block, typed or scanned',
    help: [['--in DIR', 'folder to look in (default: the job book)'], JSON_HELP],
    options: { ...JSON_FLAG, in: { type: 'string' } },
    positionals: ['SUM'],
    run: async (call) => (await import('./commands/find.ts')).find(call),
  },
  validate: {
    usage: 'validate JOB [--json]',
    summary: 'every fault of a job file, one a line',
    help: [['--json', 'print the faults as JSON']],
    options: { ...JSON_FLAG },
    positionals: ['JOB'],
    run: async (call) => (await import('./commands/validate.ts')).validate(call),
  },
  hardware: {
    usage: 'hardware [--material NAME] [--json]',
    summary: 'usual sizes of clamps, studs, nuts, blocks and weights, with their masses',
    help: [['--material NAME', 'what they are made of (default: mild steel)'], JSON_HELP],
    options: { ...JSON_FLAG, material: { type: 'string' } },
    positionals: [],
    run: async (call) => (await import('./commands/hardware.ts')).hardware(call),
  },
  demo: {
    usage: 'demo [--setup ID] [--json]',
    summary: 'the bundled example: its balance sheet, and its drawing in out/demo',
    help: [SETUP_HELP, JSON_HELP],
    options: { ...SETUP, ...JSON_FLAG },
    positionals: [],
    run: async (call) => (await import('./commands/demo.ts')).demo(call),
  },
}
