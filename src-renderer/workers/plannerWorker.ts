import type { PlannerPort } from '../state/planner.svelte.ts'

export const plannerWorker = (): PlannerPort =>
  new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module' })
