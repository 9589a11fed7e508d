/** Job files of released versions, kept for ever, with the figures that they gave when they were written. */
import { readdirSync, readFileSync } from 'node:fs'
import type { Analysis } from '../../src-core/analysis/result.ts'

const FOLDER = new URL('../data/jobs/', import.meta.url)
const ENDING = '.evenswing.json'

export interface KeptFigures {
  readonly part_kg: number
  readonly turning_kg: number
  readonly unbalance_g_mm: number
  readonly angle_deg: number
  readonly upper95_g_mm: number
  readonly after_cut_g_mm: number
  readonly couple_g_mm2: number
}

/** What a kept job must still give; not the verdicts, which a better check may change. */
export const figuresOf = (a: Analysis): KeptFigures => ({
  part_kg: a.part.mass_kg,
  turning_kg: a.assembly.mass_kg,
  unbalance_g_mm: a.unbalance.static_g_mm,
  angle_deg: a.unbalance.static_angle_deg,
  upper95_g_mm: a.unbalance.upper95_g_mm,
  after_cut_g_mm: a.unbalance.after_cut_g_mm,
  couple_g_mm2: a.unbalance.couple_g_mm2,
})

export interface KeptJob {
  readonly name: string
  readonly version: number
  readonly text: string
  /** By setup id. */
  readonly expected: Readonly<Record<string, KeptFigures>>
}

export const keptJobs = (): KeptJob[] =>
  readdirSync(FOLDER).flatMap((folder) => {
    const at = new URL(`${folder}/`, FOLDER)
    const figures = JSON.parse(readFileSync(new URL('expected.json', at), 'utf8')) as Record<
      string,
      Record<string, KeptFigures>
    >
    return readdirSync(at)
      .filter((file) => file.endsWith(ENDING))
      .map((file) => {
        const name = file.slice(0, -ENDING.length)
        const text = readFileSync(new URL(file, at), 'utf8')
        return { name, version: Number(folder.slice(1)), text, expected: figures[name] ?? {} }
      })
  })
