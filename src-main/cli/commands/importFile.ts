/** `import FILE --out JOB`: a new job whose part comes from a drawing (DXF, SVG, CSV) or a mesh (STL). */
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { importFile as readDrawing } from '../../../src-core/import/importFile.ts'
import { toBodies } from '../../../src-core/import/toBodies.ts'
import type { ImportUnit, Preview } from '../../../src-core/import/types.ts'
import type { Body } from '../../../src-core/job/schema.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure, oneLine } from '../failure.ts'
import { readBytes } from '../jobInput.ts'
import { importedJob } from '../importedJob.ts'
import { writeJob } from '../outputs.ts'

const UNITS: readonly ImportUnit[] = ['mm', 'cm', 'm', 'in', 'ft']
/** mm; a drawing has no thickness, so one is taken until the user gives the real one. */
const THICKNESS = 20

export async function importFile(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const out = textValue(call, 'out')
  if (out === undefined) throw new Failure('import: --out JOB is missing')
  if (out === '') throw new Failure('import: --out: the file name is empty')
  const unit = unitOf(call)
  const thickness = thicknessOf(call)
  const preview = read(file, await readBytes(call.io, file), unit)
  const assumed = preview.units === null
  const bodies = bodiesOf(file, preview, thickness)
  const job = await importedJob(call.io.root, file, bodies)
  await writeJob(call.io, out, job)
  const { part } = analyse(job, job.setups[0]!.id)
  const notes = notesOf(preview, assumed, textValue(call, 'thickness') === undefined)
  if (flag(call, 'json')) {
    printJson(call.io, {
      job: out,
      kind: preview.kind,
      unit: preview.units ?? 'mm',
      bodies: bodies.length,
      part,
      notes,
    })
    return EXIT.done
  }
  const fmt = formatter(job.displayUnits)
  const count = `${bodies.length} ${bodies.length === 1 ? 'body' : 'bodies'}`
  call.io.out(`${oneLine(out)}: ${count}, ${fmt.mass(part.mass_kg)} as mild steel\n`)
  for (const note of notes) call.io.out(`  ${oneLine(note)}\n`)
  return EXIT.done
}

function unitOf(call: Call): ImportUnit | undefined {
  const word = textValue(call, 'unit')
  if (word === undefined) return undefined
  const found = UNITS.find((u) => u === word)
  if (!found) throw new Failure(`import: --unit: "${word}" is none of ${UNITS.join(', ')}`)
  return found
}

function thicknessOf(call: Call): number {
  const word = textValue(call, 'thickness')
  if (word === undefined) return THICKNESS
  const value = /^\d{1,6}(\.\d{1,9})?$/.test(word) ? Number(word) : 0
  if (!(value > 0)) throw new Failure(`import: --thickness: "${word}" is not a length in mm above zero`)
  return value
}

function read(file: string, bytes: Uint8Array, unit: ImportUnit | undefined): Preview {
  const result = readDrawing(file, bytes, { units: unit })
  if (result.ok) return result
  const [first, ...more] = result.faults
  const rest = more.length === 0 ? '' : ` (and ${more.length} more ${more.length === 1 ? 'fault' : 'faults'})`
  throw new Failure(`${file}: ${first ? `${first.place}: ${first.reason}` : 'cannot be read'}${rest}`)
}

function bodiesOf(file: string, preview: Preview, thickness: number): Body[] {
  const made = toBodies(preview, { thickness, units: preview.units ?? 'mm' })
  if (made.ok) return made.bodies
  const where = preview.faults[0]
  const why = where && where.outline !== null ? `; outline ${where.outline + 1} ${where.message}` : ''
  throw new Failure(`${file}: ${made.reason}${why}`)
}

/** What the user has to know, or to put right. */
function notesOf(preview: Preview, assumedUnit: boolean, assumedThickness: boolean): string[] {
  const notes = ['Lathe, plate, stock and material are those of the example; put in your own.']
  if (assumedUnit) notes.push('The file states no unit; it was taken to be in mm (--unit says otherwise).')
  if (!preview.solid && assumedThickness)
    notes.push(`A drawing has no thickness; ${THICKNESS} mm was taken (--thickness says otherwise).`)
  for (const { kind, count, reason, place } of preview.dropped)
    notes.push(`Left out: ${count} ${kind}: ${reason}${place ? ` (${place})` : ''}`)
  for (const { outline, message } of preview.faults)
    notes.push(outline === null ? message : `Left out: outline ${outline + 1} ${message}`)
  return notes
}
