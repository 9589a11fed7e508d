/** Angle plates and vees where they stand: their feet on the plate, their shelves beside the axis. */
import { finding, type Finding } from '../findings/finding.ts'
import { leastThickness } from '../hardware/shelves.ts'
import { KIND_WORDS } from '../hardware/words.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import { isShelf } from '../job/schema.ts'
import { ringPolygons } from '../mounting/material.ts'
import { standOnPlate } from '../mounting/plateFace.ts'
import { faceSize } from '../mounting/shelfSize.ts'
import { isVeeBlock, placeInPlate } from '../mounting/shelf.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'

export const shelfFindings = (mounted: Mounted): Finding[] => [
  ...feet(mounted),
  ...thin(mounted),
  ...(mounted.shelves ?? []).flatMap((view) => [...beyondAxis(view), ...slanted(view)]),
]

/** A foot that hangs over the rim or the bore bears less; slots it bridges. */
function feet({ job, pieces }: Mounted): Finding[] {
  const fmt = formatter(job.displayUnits)
  return pieces.flatMap(({ item, solids, at }) => {
    if (!isShelf(item) || isVeeBlock(item)) return []
    const stands = solids
      .filter((s) => s.role === 'fixture' && s.z0 === 0)
      .map((s) => standOnPlate(job.plate, ringPolygons(s.ring)))
    const over = [...new Set(stands.flatMap((s) => s.over))].filter((o) => o.startsWith("the plate's"))
    if (over.length === 0) return []
    const least = Math.min(...stands.map((s) => s.share))
    const message = `${capital(KIND_WORDS[item.kind])} ${item.id} hangs over ${over.join(' and ')}. Move it onto solid plate if you can; ${fmt.percent(least)} of it lies on the plate.`
    return [finding('caution', 'foot-overhangs', item.id, message, at)]
  })
}

/** What gives way under its load is no seat; strength is not worked out, so a usual thickness is asked for. */
function thin({ job, setup, pieces }: Mounted): Finding[] {
  const fmt = formatter(job.displayUnits)
  return setup.hardware.flatMap((item) => {
    if (!isShelf(item) || isVeeBlock(item)) return []
    const [what, thickness, least] =
      item.kind === 'anglePlate'
        ? ['Its foot and shelf are', item.thickness, leastThickness(item)]
        : ['Its foot is', item.foot.thickness, thickestBolt(pieces, item.id)]
    if (thickness >= least - ROUNDING.length) return []
    const source =
      item.kind === 'anglePlate'
        ? `a published table asks for ${fmt.length(least)} with a shelf and webs as these`
        : `as thick as its bolts, ${fmt.length(least)}, is asked for`
    const message = `Whether ${KIND_WORDS[item.kind]} ${item.id} bends is not known. ${what} only ${fmt.length(thickness)} thick; ${source}. Use a stiffer one.`
    return [finding('caution', 'fixture-thin', item.id, message)]
  })
}

const thickestBolt = (pieces: Mounted['pieces'], id: string): number =>
  Math.max(
    0,
    ...pieces
      .filter((p) => p.item.id === id)
      .flatMap((p) => p.fastenings.map((f) => f.thread?.diameter ?? 0)),
  )

/** The spindle axis runs before a shelf, never behind it. */
function beyondAxis(view: Mounted): Finding[] {
  const { shelf } = view
  if (!shelf?.carriesPart) return []
  const stands = faceSize(shelf)
  if (stands > 0) return []
  const fmt = formatter(view.job.displayUnits)
  const where = stands === 0 ? 'on it' : `${fmt.length(-stands)} beyond it`
  const message = `The shelf of ${shelf.item.id} stands above the axis: its face lies ${where}, so the tool would cut the shelf. Move it back, away from where it faces, or turn it round.`
  return [finding('stop', 'shelf-above-axis', shelf.item.id, message, placeInPlate(view, { x: 0, y: 0 }))]
}

function slanted({ shelf }: Mounted): Finding[] {
  if (!shelf?.carriesPart || shelf.slanted.length === 0) return []
  const names = shelf.slanted.join(', ')
  const message = `What ${names} carries or meets on ${shelf.item.id} is not known: it lies at a slant to the shelf. Draw it square to the shelf, or as part of the outline seen from in front.`
  return [finding('caution', 'body-slanted', 'part', message)]
}
