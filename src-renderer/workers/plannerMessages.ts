import type { Job } from '../../src-core/job/schema.ts'
import type { PlanOptions, PlanReport } from '../../src-core/planner/report.ts'

export interface PlannerRequest {
  readonly id: number
  readonly job: Job
  readonly setupId: string
  readonly options: PlanOptions
}

/** Every reply names the request that it belongs to. */
export type PlannerReply =
  | { readonly kind: 'progress'; readonly id: number; readonly fraction: number; readonly note: string }
  /** What is known already while the longer search goes on. */
  | { readonly kind: 'interim'; readonly id: number; readonly report: PlanReport }
  | { readonly kind: 'done'; readonly id: number; readonly report: PlanReport }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string }
