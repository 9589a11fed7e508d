import { expect } from 'vitest'

/** Relative or absolute, whichever is looser; NaN is never near anything. */
export function expectNear(actual: number, expected: number, tol: { rel?: number; abs?: number }): void {
  const allowed = Math.max((tol.rel ?? 0) * Math.max(Math.abs(actual), Math.abs(expected)), tol.abs ?? 0)
  const difference = Math.abs(actual - expected)
  if (Number.isFinite(difference) && difference <= allowed) return
  expect.fail(`${actual} is not within ${allowed} of ${expected} (off by ${difference})`)
}
