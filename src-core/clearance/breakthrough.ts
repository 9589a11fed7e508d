/**
 * Whether tool or drill comes through into the plate: packing and the plate's own bore decide. A 118° drill point
 * is 0.30 of its diameter long (½·cot 59° = 0.300).
 */
import type { Finding } from '../findings/finding.ts'
import type { Mounted, MountedBore, MountedSolid } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { isBoreCut } from '../job/schema.ts'
import { type Polygons } from '../geometry/polygonBox.ts'
import { discPolygons } from '../mounting/material.ts'
import { finding } from '../findings/finding.ts'
import { metInPlan } from './inSpace.ts'
import { polygonArea, polygonPlace } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'

/** Length of a drill's point over its diameter, for a 118° point. */
export const DRILL_POINT = 0.3
/** mm that a boring tool runs out beyond the back of a through bore. Rule of thumb, Evenswing's own. */
export const BORING_RUN_OUT = 1

interface Tool {
  readonly name: string
  readonly diameter: number
  /** How far it goes beyond the bore's bottom, mm. */
  readonly beyond: number
}

/** Tools that the setup's cuts send to the bottom of a bore. */
export function toolsAtBottom(mounted: Mounted, bore: MountedBore): Tool[] {
  const cuts = (mounted.setup.cuts ?? []).filter((c) => isBoreCut(c) && c.bore === bore.bore.id)
  const { diameter, start } = bore.bore
  const tools: Tool[] = []
  const drills = cuts.filter((c) => c.kind === 'drill')
  for (const drill of drills)
    tools.push({ name: 'the drill', diameter: drill.diameter, beyond: drill.diameter * DRILL_POINT })
  if (drills.length === 0 && start === 0) {
    const name = 'a drill as large as the bore (none is named, so the worst is taken)'
    tools.push({ name, diameter, beyond: diameter * DRILL_POINT })
  }
  if (drills.length < cuts.length)
    tools.push({ name: 'the boring tool', diameter, beyond: bore.through ? BORING_RUN_OUT : 0 })
  return tools
}

export const breakthroughFindings = (mounted: Mounted): Finding[] =>
  mounted.bores.filter((b) => b.state === 'to cut').flatMap((bore) => comesThrough(mounted, bore))

function comesThrough(mounted: Mounted, bore: MountedBore): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const tools = toolsAtBottom(mounted, bore)
  const findings: Finding[] = []
  for (const tool of tools) {
    const room = bore.z0
    const short = tool.beyond - room
    if (short <= TOLERANCE.height || tool.diameter < mounted.job.plate.bore) continue
    const message = `${capital(tool.name)} (${fmt.length(tool.diameter)}) goes ${fmt.length(tool.beyond)} beyond the bottom of bore ${bore.bore.id}, which stands ${fmt.length(room)} off the plate, and the plate's own bore is ${fmt.length(mounted.job.plate.bore)}: it cuts ${fmt.length(short)} into the plate. Raise the packing by that much, or stop short.`
    findings.push(finding('stop', 'breakthrough-plate', bore.bore.id, message, bore.centre))
  }
  findings.push(...packingUnderBore(mounted, bore, tools))
  return findings
}

/** Pieces under the part where a tool comes out. */
function packingUnderBore(mounted: Mounted, bore: MountedBore, tools: readonly Tool[]): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const solids = mounted.pieces.flatMap((p) => p.solids.map((s) => ({ ...s, item: p.item })))
  return solids.flatMap((piece) => {
    // What stands upright and goes on in front of the bore's bottom is in the path of the bar.
    if (piece.z0 >= bore.z0 || (!piece.lies && piece.z1 > bore.z0 + TOLERANCE.height)) return []
    const low = tools.filter((tool) => piece.z1 > bore.z0 - tool.beyond + TOLERANCE.height)
    const found = low.flatMap((tool) => {
      const met = metBy(tool, bore, piece)
      return polygonArea(met) > TOLERANCE.clashArea ? [{ tool, met }] : []
    })
    if (!found[0]) return []
    const { tool: hit, met } = found[0]
    const at = polygonPlace(met)
    const cure =
      piece.item.kind === 'fixture'
        ? `Use one with a bore of ${fmt.length(hit.diameter)} or more, or packing on it.`
        : 'Set the packing clear of the bore.'
    const message = `${capital(hit.name)} comes out of bore ${bore.bore.id} into ${piece.item.id}, which lies under its ${fmt.length(hit.diameter)} circle. ${cure}`
    return [finding('stop', 'breakthrough-packing', piece.item.id, message, at)]
  })
}

/** What of a solid a tool's circle meets in plan, down to where the tool comes. */
function metBy(tool: Tool, { centre, z0 }: MountedBore, solid: MountedSolid): Polygons {
  const disc = discPolygons(centre, tool.diameter)
  return solid.lies
    ? metInPlan(solid, z0 - tool.beyond + TOLERANCE.height, z0 - TOLERANCE.height, disc)
    : metInPlan(solid, -Infinity, Infinity, disc)
}

/** A bore that is cut must stand on the axis. */
export function axisFindings({ job, bores }: Mounted): Finding[] {
  const fmt = formatter(job.displayUnits)
  return bores.flatMap((bore) => {
    const off = Math.hypot(bore.centre.x, bore.centre.y)
    if (bore.state !== 'to cut' || off <= TOLERANCE.height) return []
    const message = `Bore ${bore.bore.id} is to be cut but stands ${fmt.length(off)} off the spindle axis. Centre the part on it.`
    return [finding('stop', 'bore-off-axis', bore.bore.id, message, bore.centre)]
  })
}
