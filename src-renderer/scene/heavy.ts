import type { Analysis } from '../../src-core/analysis/result.ts'

/** True where the best estimate of the unbalance is smaller than its own doubt: then it has no side worth naming. */
export function nothingHeavy(analysis: Analysis): boolean {
  const { static_g_mm } = analysis.unbalance
  const sigma = Math.sqrt(Math.max(analysis.covariance.xx, analysis.covariance.yy))
  return static_g_mm < 1e-6 || static_g_mm < 0.5 * sigma
}
