/** How the part is found on the plate: the axis' own bore, two points and two edges with their places. */
import { directionOf } from '../../geometry/angles.ts'
import type { Job } from '../../job/schema.ts'
import { datumEdges, datumPoints, type DatumEdge } from '../../mounting/partDatums.ts'
import { angleText, indexAngle, indexWords } from '../../mounting/plateAngle.ts'
import type { Mounted } from '../../mounting/types.ts'
import { wholeTurn } from '../../geometry/angles.ts'
import { plain } from '../../units/format.ts'
import { MOST_BORES } from '../views/frontDimensions.ts'
import { dimensionText } from '../views/view.ts'
import type { TableInput } from './table.ts'

/** Null where the part has neither points nor edges to find it by. */
export function placingTable(mounted: Mounted): TableInput | null {
  const { job, setup } = mounted
  const points = datumPoints(mounted)
  const edges = datumEdges(mounted)
  if (points.length + edges.length === 0) return null
  const mm = (v: number) => dimensionText(job, v)
  const axis = 'bore' in setup.centre ? `bore ${setup.centre.bore}` : 'marked point'
  return {
    title: 'Placing the part',
    remark: `Turned ${plain(setup.turn, 1)}° from its own drawing, counter-clockwise as seen from the tailstock. Angles from ${indexWords(job)}; in brackets x to the right and y up as drawn, from the axis; ${job.displayUnits}.`,
    columns: [
      { title: 'What' },
      { title: 'R', align: 'end' },
      { title: 'Angle', align: 'end' },
      { title: '(x, y)' },
      { title: 'Gauge', wraps: true },
      { title: 'Found', least: 20 },
    ],
    rows: [
      [axis, '0', '–', '(0, 0)', 'on the axis, by centre or indicator', ''],
      ...points.map(({ id, kind, at }) => [
        `${kind} ${id}`,
        mm(Math.hypot(at.x, at.y)),
        angleText(job, directionOf(at)),
        `(${mm(at.x)}, ${mm(at.y)})`,
        `${mm(job.plate.diameter / 2 - Math.hypot(at.x, at.y))} inside the rim`,
        '',
      ]),
      ...edges.map((e) => [
        `edge ${e.id}`,
        mm(e.distance),
        `lies at ${lineAngle(job, e)}`,
        `(${mm(e.foot.x)}, ${mm(e.foot.y)})`,
        gaugeWords(job, e),
        '',
      ]),
    ],
    small: true,
  }
}

/** A line's angle from the index, 0 to below 180. */
function lineAngle(job: Job, { angle }: DatumEdge): string {
  const shown = plain(wholeTurn(angle - indexAngle(job)) % 180, 1)
  return `${shown === '180' ? '0' : shown}°`
}

/** What to set between a straight edge on it and the plate's rim or bore. */
function gaugeWords(job: Job, { distance }: DatumEdge): string {
  const { diameter, bore } = job.plate
  const rim = `${dimensionText(job, diameter / 2 - distance)} from straight edge to rim`
  const fromBore = distance - bore / 2
  return bore > 0 && fromBore > 0 ? `${rim}, ${dimensionText(job, fromBore)} to the plate's bore` : rim
}

/** Every bore of a part that has more than the view names; null for a part with few. */
export function boreTable({ job, bores }: Mounted): TableInput | null {
  if (bores.length <= MOST_BORES) return null
  const mm = (v: number) => dimensionText(job, v)
  return {
    title: 'Bores',
    remark: `The view names ${plain(MOST_BORES, 0)} of ${plain(bores.length, 0)}; from the axis, ${job.displayUnits}. Angles from ${indexWords(job)}.`,
    columns: [
      { title: 'Bore' },
      { title: 'Ø', align: 'end' },
      { title: 'R', align: 'end' },
      { title: 'Angle', align: 'end' },
      { title: '(x, y)' },
      { title: 'State' },
    ],
    rows: bores.map(({ bore, centre, state }) => [
      bore.id,
      mm(bore.diameter),
      mm(Math.hypot(centre.x, centre.y)),
      angleText(job, directionOf(centre)),
      `(${mm(centre.x)}, ${mm(centre.y)})`,
      state === 'uncut' ? 'later' : state,
    ]),
    small: true,
    splits: true,
  }
}
