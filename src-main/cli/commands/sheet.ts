/** `sheet JOB --out DIR`: the setup drawing, or the plate's paper template, as files. */
import { basename, relative } from 'node:path'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { largerSheet, largerSheetWords } from '../../../src-core/drawing/sheet/larger.ts'
import { setupSheets } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { plateTemplate } from '../../../src-core/drawing/template/plateTemplate.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { stepCards } from '../../../src-core/drawing/cards/stepCards.ts'
import type { Job, Setup } from '../../../src-core/job/schema.ts'
import { verdictLine } from '../balanceSheet.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure, printable } from '../failure.ts'
import { readJob, setupOf } from '../jobInput.ts'
import { makeFolder } from '../outputs.ts'
import { writeSheets, type SheetSet } from '../sheetFiles.ts'
import { sheetFlags, type SheetFlags } from '../sheetFlags.ts'
import { SHEET_FORMATS, SHEET_FORMATS_DEFAULT, type SheetFormat } from '../sheetFormats.ts'
import { exitFor } from './check.ts'

/** What may be asked for: how it is called, what its files' names end in behind the setup, and its usual formats. */
const KINDS = {
  sheet: { words: 'sheet', ending: '', usual: SHEET_FORMATS_DEFAULT },
  template: { words: 'template', ending: '-template', usual: ['pdf'] },
  cards: { words: 'set of cards', ending: '-cards', usual: ['pdf'] },
} as const
type Kind = keyof typeof KINDS

export async function sheet(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const out = textValue(call, 'out')
  if (out === undefined) throw new Failure('sheet: --out DIR is missing')
  const kind = kindOf(call)
  const { words, ending, usual } = KINDS[kind]
  const formats = formatsOf(call, usual)
  const options = { ...sheetFlags(call), file: basename(file) }
  const job = await readJob(call.io, file)
  const setups = setupsOf(call, job, file)
  const analyses = setups.map(({ id }) => analyse(job, id))
  const sets = drawn(kind, job, analyses, options).map((drawings, i) => ({
    suffix: `-${setups[i]!.id}${ending}`,
    drawings,
  }))
  const paths = await writeSheets({
    folder: await makeFolder(call.io, out),
    job,
    formats,
    sets,
    ...(flag(call, 'all') && { together: ending }),
  })
  const against = analyses.flatMap((a) => a.findings.filter((f) => f.effect !== 'none'))
  const which = flag(call, 'all') ? { setups: setups.map((s) => s.id) } : { setup: setups[0]!.id }
  if (flag(call, 'json')) printJson(call.io, { ...which, files: paths, findings: against })
  else for (const path of paths) call.io.out(`${printable(relative(call.io.cwd, path) || path)}\n`)
  if (kind === 'sheet') noteCrowded(call, job, analyses, options, sets)
  return exitWord(call, analyses, words)
}

/** Proposes a larger sheet where the views had no room for all their labels. */
function noteCrowded(
  call: Call,
  job: Job,
  analyses: readonly Analysis[],
  options: SheetFlags,
  sets: readonly SheetSet[],
): void {
  for (const [i, analysis] of analyses.entries()) {
    const larger = largerSheet(job, analysis.setup, analysis, options, sets[i]!.drawings)
    if (!larger) continue
    const flag = larger.to === null ? '' : ` (--size ${larger.to})`
    call.io.note(`${analysis.setup}: ${largerSheetWords(larger)}${flag}`)
  }
}

function kindOf(call: Call): Kind {
  const [template, cards] = [flag(call, 'template'), flag(call, 'cards')]
  if (cards && template) throw new Failure('sheet: --cards and --template are two things; ask for one')
  return template ? 'template' : cards ? 'cards' : 'sheet'
}

/** The drawings of each setup. */
function drawn(
  kind: Kind,
  job: Job,
  analyses: readonly Analysis[],
  options: SheetFlags,
): readonly (readonly Drawing[])[] {
  switch (kind) {
    case 'sheet':
      return setupSheets(
        job,
        analyses.map((analysis) => ({ setup: analysis.setup, analysis })),
        options,
      )
    case 'template':
      return analyses.map((a) => template(job, a.setup, options))
    case 'cards':
      return analyses.map((a) => stepCards(mountSetup(job, a.setup), a))
  }
}

function setupsOf(call: Call, job: Job, file: string): readonly Setup[] {
  const id = textValue(call, 'setup')
  if (!flag(call, 'all')) return [setupOf(job, file, id)]
  if (id !== undefined) throw new Failure('sheet: --all takes every setup; leave --setup out')
  return job.setups
}

function template(job: Job, setup: string, options: SheetFlags): readonly Drawing[] {
  try {
    return plateTemplate(job, setup, options.sheet, options)
  } catch (error) {
    if (error instanceof RangeError) throw new Failure(`sheet: --template: ${error.message}`)
    throw error
  }
}

function exitWord(call: Call, analyses: readonly Analysis[], what: string): number {
  const bad = analyses.filter((a) => exitFor(a) !== EXIT.done)
  for (const a of bad) call.io.note(`the ${what} of ${a.setup} is written, but ${verdictLine(a)}`)
  return bad.length > 0 ? EXIT.stopFindings : EXIT.done
}

function formatsOf(call: Call, usual: readonly SheetFormat[]): SheetFormat[] {
  const given = call.values['format']
  if (given === undefined) return [...usual]
  const words = [given].flat().flatMap((v) => String(v).split(','))
  return [...new Set(words.map((word) => formatOf(word.trim().toLowerCase())))]
}

function formatOf(word: string): SheetFormat {
  const found = SHEET_FORMATS.find((f) => f === word)
  if (!found)
    throw new Failure(`sheet: --format: there is no format "${word}"; there are ${SHEET_FORMATS.join(', ')}`)
  return found
}
