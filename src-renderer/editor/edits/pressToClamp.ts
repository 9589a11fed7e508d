/** A press, of which only levers are known, made a real clamp at the same station and in the same direction. */
import { angleTowards, toDegrees, wholeTurn } from '../../../src-core/geometry/angles.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { USUAL_STRAPS, type Strap } from '../../../src-core/hardware/straps.ts'
import { studFor, usualClamp } from '../../../src-core/hardware/usualClamp.ts'
import {
  isBox,
  type Box,
  type Clamp,
  type Hardware,
  type Job,
  type Setup,
} from '../../../src-core/job/schema.ts'
import { facingOf, inward, stationPoint } from '../../../src-core/mounting/station.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { roundTo } from '../snap.ts'
import { withoutDoubledPacking } from './clampPlace.ts'

/** What a job of version 1 could not say, and where it is given. */
export interface Unsaid {
  readonly setup: string
  readonly id: string
  readonly name: string
  /** A press presses on what is not known; of a box it is not known how it is held. */
  readonly lacks: 'press' | 'held'
}

export const unsaidOf = (job: Job): Unsaid[] =>
  job.setups.flatMap((s) =>
    s.hardware.flatMap((h): Unsaid[] => {
      const named = { setup: s.id, id: h.id, name: h.name ?? '' }
      if (h.kind === 'press') return [{ ...named, lacks: 'press' }]
      if (isBox(h) && h.kind !== 'packing' && !h.held?.length) return [{ ...named, lacks: 'held' }]
      return []
    }),
  )

/** The job with that press as a usual clamp of its thread and size; unchanged where it is no press. */
export function pressToClamp(job: Job, setupId: string, id: string): Job {
  const setup = job.setups.find((s) => s.id === setupId)
  const press = setup?.hardware.find((h) => h.id === id)
  if (!setup || press?.kind !== 'press') return job
  const placed = clampFor(job, press, setup)
  const bare = withHardware(job, setupId, (list) => list.filter((h) => h.id !== id))
  const kept = { ...withoutDoubledPacking(mountSetup(bare, setupId), placed), id }
  return withHardware(job, setupId, (list) => list.map((h) => (h.id === id ? kept : h)))
}

const withHardware = (
  job: Job,
  setupId: string,
  change: (list: readonly Hardware[]) => readonly Hardware[],
): Job => ({
  ...job,
  setups: job.setups.map((s) => (s.id === setupId ? { ...s, hardware: change(s.hardware) } : s)),
})

function clampFor(job: Job, press: Box, { hardware, packing }: Setup): Omit<Clamp, 'id'> {
  const { thread: given, class: strength, torque, nose } = press.press ?? {}
  const thread = findThread(given ?? '')?.name ?? studFor(job.plate, job.displayUnits)?.name ?? 'M12'
  const pattern = usualClamp(sizeOf(press, thread), thread, packing > 0)
  const bolt = stationPoint(job.plate, press.at, hardware)
  const facing = nose
    ? toDegrees(angleTowards(bolt, nose))
    : (press.facing ??
      (press.footprint && 'rect' in press.footprint
        ? inward(job.plate, press.at, hardware)
        : facingOf(job.plate, press, hardware)))
  return {
    ...pattern,
    ...(press.name === undefined ? {} : { name: press.name }),
    stud: { ...pattern.stud, ...(strength ? { class: strength } : {}) },
    torque: torque ?? null,
    at: press.at,
    facing: wholeTurn(roundTo(facing, 0.1)),
    fixed: press.fixed,
  }
}

/** The usual strap of the thread that is nearest in length to the press's outline. */
function sizeOf({ footprint }: Box, thread: string): Pick<Strap, 'length' | 'width' | 'thickness'> {
  const long = 'rect' in footprint ? Math.max(...footprint.rect) : 100
  const same = USUAL_STRAPS.filter((s) => s.thread === thread)
  const usual = (same.length > 0 ? same : USUAL_STRAPS).reduce((a, b) =>
    Math.abs(b.length - long) < Math.abs(a.length - long) ? b : a,
  )
  return { length: usual.length, width: usual.width, thickness: usual.thickness }
}
