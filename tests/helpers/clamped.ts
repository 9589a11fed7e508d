/** A block of 120 × 80 × 20 on 12 of packing, held by two straps along slots 1 and 3. Invented. */
import { clampStates, type ClampState } from '../../src-core/holding/clampState.ts'
import { contactFindings } from '../../src-core/holding/contactFindings.ts'
import type { Clamp, Hardware, Job, Part, Plate, Setup } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { block, jobWith, partOf } from './jobs.ts'

/** Toe from 45 to 53 mm on the axis of slot 1, bolt at 85, heel from 115 to 145. */
export const strapClamp = (more: Partial<Clamp> = {}): Clamp => ({
  id: 'c1',
  kind: 'clamp',
  at: { slot: 'S1', radius: 85 },
  facing: 180,
  strap: { length: 100, width: 40, thickness: 20, boltFrom: 40, opening: 14, slotted: 0 },
  stud: { thread: 'M12', class: '8.8', length: 'suit' },
  torque: 20,
  heel: { kind: 'block', size: [30, 40], height: 'suit' },
  packing: { size: [30, 40] },
  fixed: true,
  ...more,
})

const other = strapClamp({ id: 'c2', at: { slot: 'S3', radius: 85 }, facing: 0 })

export interface Clamped {
  readonly clamp?: Partial<Clamp>
  readonly part?: Part
  readonly plate?: Partial<Plate>
  readonly setup?: Partial<Setup>
  readonly hardware?: readonly Hardware[]
}

export const plainPart = (thickness = 20): Part =>
  partOf([block('body', { x: 0, y: 0 }, [120, 80, thickness])])

export const clampedJob = ({ clamp, part, plate, setup, hardware }: Clamped = {}): Job =>
  jobWith({
    part: part ?? plainPart(),
    ...(plate ? { plate } : {}),
    setup: { ...setup, hardware: [strapClamp(clamp), other, ...(hardware ?? [])] },
  })

export interface Looked {
  readonly states: readonly ClampState[]
  readonly c1: ClampState
  /** `stop toe-off c1`, as they were found. */
  readonly found: readonly string[]
  readonly message: (code: string) => string
}

export function lookAt(job: Job): Looked {
  const mounted = mountSetup(job, 'op10')
  const states = clampStates(mounted)
  const findings = contactFindings(mounted, states)
  return {
    states,
    c1: states[0]!,
    found: findings.map((f) => `${f.severity} ${f.code} ${f.item}`),
    message: (code) => findings.find((f) => f.code === code)?.message ?? '',
  }
}

export const look = (clamped: Clamped = {}): Looked => lookAt(clampedJob(clamped))
