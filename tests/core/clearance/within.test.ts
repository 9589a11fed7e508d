/** What stands round the tool, as a deep ring does, is not in its way. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Cut, Hardware } from '../../../src-core/job/schema.ts'
import { bore, disc, jobWith, partOf } from '../../helpers/jobs.ts'

const O = { x: 0, y: 0 }
const TOOLING = { tool: 'HSS', speed: 20, feed: 0.1, interrupted: false } as const
const DRILL: Cut = { id: 'd', kind: 'drill', bore: 'A', diameter: 20, ...TOOLING }
const FACE: Cut = { id: 'f', kind: 'face', from: 30, to: 0, z: null, depth: 1, ...TOOLING }

/** A disc of 80 by 20 in a ring 60 deep of an inside diameter. */
const within = (inside: number): readonly string[] => {
  const ring: Hardware = {
    id: 'F1',
    kind: 'fixture',
    form: 'subPlate',
    at: O,
    facing: 0,
    footprint: { circle: 240 },
    bore: inside,
    thickness: 60,
    holes: [],
    bolts: [],
    fixed: true,
  }
  const job = jobWith({
    part: partOf([disc('d', O, 80, 20)], [bore('A', O, 20)]),
    lathe: { tailstock: { barrel: 65, reach: 30 } },
    setup: { centre: { bore: 'A' }, packing: 0, cuts: [DRILL, FACE], hardware: [ring] },
  })
  return analyse(job, 'op10').findings.flatMap((f) =>
    f.item === 'F1' && (f.code === 'fouls-tailstock' || f.code === 'in-tool-path') ? [f.code] : [],
  )
}

test('neither of the barrel nor of a facing tool', () => {
  expect(within(100)).toEqual([])
  // The barrel is 65 across, the tool goes out to 30 and 3 for its point.
  expect(within(64)).toEqual(expect.arrayContaining(['fouls-tailstock', 'in-tool-path']))
})
