/** A loose vee block where it lies: mass, centre and products of inertia against the same solid by manifold-3d. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { uncertaintiesOf } from '../../../src-core/doubt/defaults.ts'
import { rectRing } from '../../../src-core/geometry/edges.ts'
import type { Hardware, Job, Vee } from '../../../src-core/job/schema.ts'
import { meshProperties } from '../../../src-core/mesh/properties.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { assemble } from '../../../src-core/unbalance/assembly.ts'
import { withHardware } from '../../helpers/edited.ts'
import { mm } from '../../helpers/arbitraries.ts'
import { expectNear } from '../../helpers/near.ts'
import { manifoldPrism } from '../../helpers/peers.ts'
import { castingInBlock, VEE_BLOCK } from '../../helpers/shelfJobs.ts'
import { meshOf, Solid } from '../../helpers/solids.ts'

interface Laid {
  readonly facing: number
  readonly below: number
  readonly along: number
  readonly out: number
  readonly size: readonly [number, number, number]
  readonly opening: number
}

const IRON = 7200e-9

function laidOut({ facing, below, along, out, size, opening }: Laid): Job {
  const job = castingInBlock()
  const turn = (facing * Math.PI) / 180
  const at = { x: -below * Math.cos(turn), y: -below * Math.sin(turn) }
  const change = (h: Hardware): Hardware => {
    if (h.kind === 'anglePlate') return { ...h, at, facing }
    const vee: Partial<Vee> = { at: { on: 'A1', along, out }, size: [...size], opening }
    return h.kind === 'vee' ? { ...h, ...vee } : h
  }
  return withHardware(job, change)
}

/** Shelf frame x along, y over the shelf, z out: a box less the vee, then turned and moved to its place. */
function bySolids({ facing, below, along, out, size: [across, deep, length], opening }: Laid) {
  const box = manifoldPrism(
    { outline: rectRing({ x: along, y: deep / 2 }, across, deep, 0), holes: [] },
    out,
    out + length,
  )
  // A right angle: as deep as half its mouth; its tool goes on above the lands.
  const vee = [
    { x: along - opening, y: deep + opening / 2 },
    { x: along, y: deep - opening / 2 },
    { x: along + opening, y: deep + opening / 2 },
  ]
  const tool = manifoldPrism({ outline: vee, holes: [] }, out - 1, out + length + 1)
  const cut = box.subtract(tool)
  // Its y looks as the shelf does; x is then a quarter turn on the other way than along.
  const placed = cut
    .mirror([1, 0, 0])
    .translate([0, -below, 0])
    .rotate([0, 0, facing - 90])
  const properties = meshProperties(meshOf(placed))
  for (const s of [box, tool, cut, placed]) s.delete()
  return properties
}

test('at random places, sizes and directions', () => {
  expect(Solid).toBeDefined()
  fc.assert(
    fc.property(
      fc.record({
        facing: mm(0, 359),
        below: mm(20, 120),
        along: mm(-60, 60),
        out: mm(0, 40),
        size: fc.tuple(mm(70, 160), mm(40, 90), mm(40, 120)),
        opening: mm(30, 60),
      }),
      (laid) => {
        const mounted = mountSetup(laidOut(laid), 'op10')
        const index = mounted.pieces.findIndex((p) => p.item.id === VEE_BLOCK.id)
        const own = assemble(mounted, uncertaintiesOf(mounted.job)).pieces[index]!
        const { volume, ...other } = bySolids(laid)
        expectNear(own.m, volume * IRON, { rel: 1e-6 })
        for (const key of ['x', 'y', 'z', 'xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const)
          expectNear(own[key], other[key] * IRON, { abs: 1e-6 * own.m * 200 ** key.length })
      },
    ),
    { numRuns: 60 },
  )
})
