/** What the job book lists and searches of a job, with a small picture of its first setup. */
import type { JobSummary } from '../bridge/bookContract.ts'
import { polar } from '../geometry/angles.ts'
import { flattenRing } from '../geometry/flatten.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { checkSum } from '../job/checkSum.ts'
import { isCounterweight, type Hardware, type Job } from '../job/schema.ts'
import { mountPiece } from '../mounting/hardware.ts'
import { mountSetup } from '../mounting/mount.ts'
import { reachInPlan } from '../mounting/reachInPlan.ts'
import { shelfUnder } from '../mounting/shelf.ts'
import type { MountedPiece } from '../mounting/types.ts'

/** The picture's box; 2 units of room stay around all that turns. */
const BOX = 100
const ROOM = 2
/** Units of the box: chords may stray by this much, which nobody sees at that size. */
const FINE = 0.3
const MOST_POINTS = 60
const MOST_RINGS = 24
const NOTES = 400
const SHORT = 200

type Role = JobSummary['picture'][number]['role']

/** Texts are cut to a list's needs. Never throws for a job that `parseJob` let through. */
export function summariseJob(job: Job): JobSummary {
  const runs = job.runs ?? []
  const last = runs.reduce<(typeof runs)[number] | null>((a, b) => (a && a.date > b.date ? a : b), null)
  const short = (text: string) => text.slice(0, SHORT)
  return {
    title: short(job.title),
    partNumber: short(job.partNumber ?? ''),
    partName: short(job.part.name),
    material: short(job.part.material),
    machine: short(job.lathe.name),
    plate: short(job.plate.name),
    notes: (job.notes ?? '').slice(0, NOTES),
    setups: job.setups.map((setup) => ({
      id: setup.id,
      title: short(setup.title),
      checkSum: checkSum(job, setup),
    })),
    lastRun: last && { date: last.date, setup: last.setup, speed: last.speed },
    picture: picture(job),
  }
}

function picture(job: Job): JobSummary['picture'] {
  const setup = job.setups[0]!
  // What a clamp's toe meets is most of the work, and nothing that is seen from in front; but on a shelf.
  const isClamp = (item: Hardware) => item.kind === 'clamp' && !shelfUnder(setup.hardware, item)
  const others = { ...setup, hardware: setup.hardware.filter((item) => !isClamp(item)) }
  const mounted = mountSetup({ ...job, setups: [others] }, setup.id)
  const { placement, ground, seat, partFront } = mounted
  const nothing = { placement, bodies: [], turned: [], bores: [] }
  const inAir = { job, setup, part: nothing, ground, seat, front: partFront }
  const standing = new Map(mounted.pieces.map((piece) => [piece.item.id, piece]))
  const pieces = setup.hardware.map((item): MountedPiece =>
    isClamp(item) ? mountPiece(inAir, item) : standing.get(item.id)!,
  )
  const scale = (BOX / 2 - ROOM) / reachInPlan({ job, bodies: mounted.bodies, pieces })
  const onBox = (p: Point) => `${round(BOX / 2 + p.x * scale)} ${round(BOX / 2 - p.y * scale)}`
  const ringPath = (ring: Ring): string => {
    const points = thin(flattenRing(ring, FINE / scale))
    return `M${points.map(onBox).join('L')}Z`
  }
  const shapes: { role: Role; path: string }[] = [
    { role: 'plate', path: circlePath(job.plate.diameter * scale) },
  ]
  for (const slot of job.plate.slots.slice(0, MOST_RINGS)) {
    const end = (r: number) => onBox(polar(r, slot.angle))
    shapes.push({ role: 'slot', path: `M${end(slot.from)}L${end(slot.to)}` })
  }
  const under = pieces.filter((p) => p.item.kind === 'fixture')
  for (const p of under.slice(0, MOST_RINGS)) shapes.push({ role: 'piece', path: ringPath(p.footprint) })
  const adding = mounted.bodies.filter((b) => b.body.effect === 'adds').slice(0, MOST_RINGS)
  for (const body of adding) {
    const rings = body.regions.flatMap((r) => [r.outline, ...r.holes]).slice(0, MOST_RINGS)
    if (rings.length > 0) shapes.push({ role: 'part', path: rings.map(ringPath).join('') })
  }
  for (const piece of pieces.filter((p) => !under.includes(p)).slice(0, MOST_RINGS))
    shapes.push({
      role: isCounterweight(piece.item) ? 'weight' : 'piece',
      path: ringPath(piece.footprint),
    })
  return shapes
}

function circlePath(diameter: number): string {
  const r = round(diameter / 2)
  const left = round(BOX / 2 - diameter / 2)
  return `M${left} 50a${r} ${r} 0 1 0 ${round(diameter)} 0a${r} ${r} 0 1 0 ${round(-diameter)} 0Z`
}

/** Every so-manieth point, so that an outline of thousands stays short. */
function thin(points: readonly Point[]): readonly Point[] {
  const step = Math.ceil(points.length / MOST_POINTS)
  return step <= 1 ? points : points.filter((_, i) => i % step === 0)
}

const round = (value: number): number => Math.round(value * 10) / 10 + 0
