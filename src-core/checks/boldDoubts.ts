/** Doubts that are typed smaller than anybody measures. */
import { UNCERTAINTY_DEFAULTS } from '../doubt/defaults.ts'
import { finding, type Finding } from '../findings/finding.ts'
import type { Job } from '../job/schema.ts'

/** Share of the usual doubt below which one is called bold. Own choice, no source. */
const BOLD_SHARE = 0.1
/** Least scatter of a preload that careful tightening reaches, as a share: an angle-controlled wrench. From memory. */
const BOLD_SCATTER = 0.1

const WORDS = {
  computedMass: 'the mass worked out',
  weighedMass: 'the mass weighed',
  centreOfMass: 'the centre of mass',
  placing: 'placing',
  plateResidual: "the plate's own residual",
} as const

/** A bound with next to no doubt in it is an estimate, and says so. */
export function boldDoubtFindings({ uncertainty = {} }: Job): Finding[] {
  const bold: string[] = Object.entries(WORDS).flatMap(([key, words]) => {
    const name = key as keyof typeof WORDS
    const given = uncertainty[name]
    return given !== undefined && given < BOLD_SHARE * UNCERTAINTY_DEFAULTS[name] ? [words] : []
  })
  const scatter = uncertainty.preloadScatter
  if (scatter !== undefined && scatter < BOLD_SCATTER) bold.push('the scatter of the preloads')
  if (bold.length === 0) return []
  const message = `Hardly any doubt is allowed for ${bold.join(', ')}: the bound is then little more than the estimate. Leave the field empty for the usual doubt.`
  return [finding('caution', 'doubts-bold', 'setup', message)]
}
