import { describe, expect, it } from 'vitest'
import { setupPicture, type PictureLine } from '../../../src-core/drawing/isometric/picture.ts'
import { shelfPicture } from '../../../src-core/drawing/isometric/pictureBlock.ts'
import { nearness, project } from '../../../src-core/drawing/isometric/projection.ts'
import { polar } from '../../../src-core/geometry/angles.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { block, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'
import { bearingBlock, CENTRE_HEIGHT } from '../../helpers/shelfJobs.ts'
import { onSubPlate } from '../../helpers/walkJobs.ts'

const AXIS = { x: 0, y: 0 }
const SCALE = 0.4

const pictureOf = (job: Job): PictureLine[] => setupPicture(mountSetup(job, 'op10')).lines(SCALE)
const bare = { slots: [], holes: [], bore: 0 }
const jobOf = (part: Parameters<typeof partOf>[0], hardware: ReturnType<typeof piece>[] = []): Job =>
  jobWith({ part: partOf(part), plate: bare, setup: { centre: AXIS, turn: 0, packing: 0, hardware } })

/** Whether a line of a picture passes a point within a twentieth of a millimetre on paper. */
function isDrawn(lines: readonly PictureLine[], p: Point): boolean {
  return lines.some(({ points }) =>
    points.slice(1).some((b, i) => {
      const a = points[i]!
      const length = Math.hypot(b.x - a.x, b.y - a.y)
      const t = Math.max(
        0,
        Math.min(1, ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / (length ** 2 || 1)),
      )
      return Math.hypot(a.x + t * (b.x - a.x) - p.x, a.y + t * (b.y - a.y) - p.y) * SCALE < 0.05
    }),
  )
}

describe('the isometric projection', () => {
  it('has its axes 120° apart and of one length', () => {
    const [x, y, z] = [
      { x: 1, y: 0, z: 0 },
      { x: 0, y: 1, z: 0 },
      { x: 0, y: 0, z: 1 },
    ].map(project)
    const angle = (p: Point) => (Math.atan2(p.y, p.x) * 180) / Math.PI
    for (const p of [x, y, z]) expect(Math.hypot(p!.x, p!.y)).toBeCloseTo(1, 12)
    // x away to the upper right, y up, z toward the lower right: lines 60° and 120° apart (ISO 5456-3, by hand).
    expect(angle(x!)).toBeCloseTo(30, 9)
    expect(angle(y!)).toBeCloseTo(90, 9)
    expect(angle(z!)).toBeCloseTo(-30, 9)
  })

  it('looks along its own line of sight', () => {
    const a = { x: 3, y: -2, z: 7 }
    const b = { x: a.x - 5, y: a.y + 5, z: a.z + 5 }
    expect(project(b).x).toBeCloseTo(project(a).x, 12)
    expect(project(b).y).toBeCloseTo(project(a).y, 12)
    expect(nearness(b)).toBeGreaterThan(nearness(a))
  })
})

describe('a block on the plate', () => {
  const lines = pictureOf(jobOf([block('b', AXIS, [64, 40, 30])]))
  const corner = (x: number, y: number, z: number) => project({ x, y, z })
  const middle = (a: Point, b: Point) => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 })

  it('shows the nine edges that face the eye and hides the three behind', () => {
    // Seen from (-1, 1, 1): the far corner is (32, -20, 0).
    const seen = [-32, 32].flatMap((x) => [-20, 20].flatMap((y) => [0, 30].map((z) => ({ x, y, z }))))
    const edges = seen.flatMap((a, i) =>
      seen
        .slice(i + 1)
        .filter((b) => +(a.x !== b.x) + +(a.y !== b.y) + +(a.z !== b.z) === 1)
        .map((b) => ({ a, b })),
    )
    expect(edges).toHaveLength(12)
    for (const { a, b } of edges) {
      const isBehind = [a, b].some((p) => p.x === 32 && p.y === -20 && p.z === 0)
      const at = middle(corner(a.x, a.y, a.z), corner(b.x, b.y, b.z))
      expect(isDrawn(lines, at)).toBe(!isBehind)
    }
  })
})

describe('holes', () => {
  it('shows what a pocket leaves standing within it', () => {
    const pocket = block('p', AXIS, [50, 30, 20], {
      effect: 'removes',
      base: 10,
      holes: [circleRing(AXIS, 12)],
    })
    const lines = pictureOf(jobOf([block('b', AXIS, [64, 40, 30]), pocket]))
    const rim = [0, 90, 180, 270].map((degrees) => polar(6, degrees))
    for (const p of rim) expect(isDrawn(lines, project({ ...p, z: 30 }))).toBe(true)
  })

  it('shows the bore of a sub-plate', () => {
    const job = onSubPlate()
    const bare = job.setups[0]!.hardware.filter((h) => h.kind === 'fixture')
    const aside = partOf([block('b', { x: 90, y: 90 }, [10, 10, 10])])
    const lines = pictureOf({
      ...job,
      part: aside,
      setups: [{ ...job.setups[0]!, centre: AXIS, hardware: bare }],
    })
    // 60 across, its face 20 over the plate's.
    const rim = [0, 90, 180, 270].map((degrees) => polar(30, degrees))
    for (const p of rim) expect(isDrawn(lines, project({ ...p, z: 20 }))).toBe(true)
  })
})

describe('what stands before something else', () => {
  it('hides it: a disc on the plate under a larger one', () => {
    const small = disc('s', AXIS, 40, 10)
    const large = disc('l', AXIS, 90, 10, { base: 10 })
    const rim = project({ x: 20 * Math.SQRT1_2, y: -20 * Math.SQRT1_2, z: 0 })
    expect(isDrawn(pictureOf(jobOf([small])), project({ x: -20, y: 0, z: 10 }))).toBe(true)
    expect(isDrawn(pictureOf(jobOf([small, large])), project({ x: -20, y: 0, z: 10 }))).toBe(false)
    expect(isDrawn(pictureOf(jobOf([small])), rim)).toBe(false)
  })

  it('is a weight before the part, and the part before a weight behind it', () => {
    const part = disc('p', AXIS, 60, 40)
    const near = piece('n', 1, { x: -60, y: 40 }, { footprint: { circle: 30 }, base: 0, height: 60 })
    const far = piece('f', 1, { x: 38, y: -38 }, { footprint: { circle: 10 }, base: 0, height: 5 })
    const lines = pictureOf(jobOf([part], [near, far]))
    expect(isDrawn(lines, project({ x: -60, y: 25, z: 60 }))).toBe(true)
    // The low disc stands in the lee of the part.
    expect(isDrawn(lines, project({ x: 38, y: -33, z: 5 }))).toBe(false)
  })
})

it('a round wall shows where it turns away, and no chords', () => {
  const lines = pictureOf(jobOf([disc('p', AXIS, 60, 40)])).filter((l) => l.of === 'part')
  const uprights = lines.filter(({ points }) => points.length === 2)
  expect(uprights).toHaveLength(2)
  for (const { points } of uprights) {
    const along = { x: points[1]!.x - points[0]!.x, y: points[1]!.y - points[0]!.y }
    expect(Math.abs(along.y / along.x)).toBeCloseTo(Math.tan(Math.PI / 6), 6)
  }
})

describe('what does not stand upright', () => {
  const lines = pictureOf(bearingBlock())
  const [behind, out] = [-CENTRE_HEIGHT - 100, 125]

  it('has its own slopes: the near web of an angle plate', () => {
    const middle = { x: -87.5, y: (behind - CENTRE_HEIGHT - 16) / 2, z: (16 + out) / 2 }
    expect(isDrawn(lines, project(middle))).toBe(true)
    // The corner of the box about it.
    expect(isDrawn(lines, project({ x: -87.5, y: behind, z: out }))).toBe(false)
  })

  it('has the corners of a body that lies across where they are', () => {
    const { seat } = mountSetup(bearingBlock(), 'op10')
    // Front edge of its upper side, at the operator's end.
    expect(isDrawn(lines, project({ x: -60, y: 20 - CENTRE_HEIGHT, z: seat + 80 }))).toBe(true)
  })
})

describe('a view square to a shelf', () => {
  const far = piece('far', 1, { x: -50, y: 150 })
  const mounted = mountSetup(bearingBlock([far]), 'op10')
  const picture = shelfPicture(mounted, mounted.shelves![0]!.shelf!)
  const lines = picture.lines(SCALE)

  it('has the shelf, its slots and the part to scale, out from the plate upward', () => {
    // The shelf of 175 by 125; its end, half way between part and corner.
    expect(isDrawn(lines, { x: 80, y: 125 })).toBe(true)
    expect(isDrawn(lines, { x: 87.5, y: 110 })).toBe(true)
    // The base of 150 by 80 stands 14 off the plate.
    expect(isDrawn(lines, { x: -75, y: 80 })).toBe(true)
    expect(isDrawn(lines, { x: 70, y: 94 })).toBe(true)
    // A slot of 70 by 13 about 65 ends beyond the base.
    expect(isDrawn(lines, { x: 56, y: 100 })).toBe(true)
    expect(isDrawn(lines, { x: 56, y: 30 })).toBe(false)
  })

  it('leaves out what stands elsewhere on the plate', () => {
    expect(mounted.pieces.some((p) => p.item.id === 'far')).toBe(true)
    const highest = Math.max(...lines.flatMap((l) => l.points.map((p) => p.y)))
    expect(highest).toBeCloseTo(125, 6)
    const bare = mountSetup(bearingBlock(), 'op10')
    expect(lines).toEqual(shelfPicture(bare, bare.shelves![0]!.shelf!).lines(SCALE))
  })
})
