/** Terms of a ratio over slips to second order (value, gradient, Hessian): see `Expansion`. */
import type { Direction } from './slipLattice.ts'
import type { Expansion } from './slipDescent.ts'

/** Adds k·|v + ω ẑ × r| at r = (ax, ay). With the direction u of that velocity and t square to it: gradient k·Aᵀu, Hessian k·Aᵀt·tᵀA / |…|. */
export function addSpeed(e: Expansion, q: Direction, k: number, ax: number, ay: number): void {
  const sx = q[0] - ay * q[2]
  const sy = q[1] + ax * q[2]
  const speed = Math.sqrt(sx * sx + sy * sy)
  if (speed === 0) return
  const ux = sx / speed
  const uy = sy / speed
  e[0]! += k * speed
  e[1]! += k * ux
  e[2]! += k * uy
  e[3]! += k * (ax * uy - ay * ux)
  const tz = ax * ux + ay * uy
  const h = k / speed
  e[4]! += h * uy * uy
  e[5]! -= h * uy * ux
  e[6]! -= h * uy * tz
  e[7]! += h * ux * ux
  e[8]! += h * ux * tz
  e[9]! += h * tz * tz
}

/** Adds k·a·q of a = (x, y, z). */
export function addLinear(e: Expansion, q: Direction, k: number, x: number, y: number, z: number): void {
  e[0]! += k * (x * q[0] + y * q[1] + z * q[2])
  e[1]! += k * x
  e[2]! += k * y
  e[3]! += k * z
}

/** Adds k·√((a·q)² + (b·q)²), a and b at `at` and `at` + 3 of `of`. Hessian k·w·wᵀ / √…, w = (a·(b·q) − b·(a·q)) / √…. */
export function addSwing(e: Expansion, q: Direction, k: number, of: Float64Array, at: number): void {
  const [ax, ay, az] = [of[at]!, of[at + 1]!, of[at + 2]!]
  const [bx, by, bz] = [of[at + 3]!, of[at + 4]!, of[at + 5]!]
  const c = ax * q[0] + ay * q[1] + az * q[2]
  const s = bx * q[0] + by * q[1] + bz * q[2]
  const size = Math.sqrt(c * c + s * s)
  if (size === 0) return
  const uc = c / size
  const us = s / size
  e[0]! += k * size
  e[1]! += k * (uc * ax + us * bx)
  e[2]! += k * (uc * ay + us * by)
  e[3]! += k * (uc * az + us * bz)
  const wx = us * ax - uc * bx
  const wy = us * ay - uc * by
  const wz = us * az - uc * bz
  const h = k / size
  e[4]! += h * wx * wx
  e[5]! += h * wx * wy
  e[6]! += h * wx * wz
  e[7]! += h * wy * wy
  e[8]! += h * wy * wz
  e[9]! += h * wz * wz
}

/** n becomes n / d, to second order. */
export function divide(n: Expansion, d: Expansion): Expansion {
  const by = 1 / d[0]!
  const f = n[0]! * by
  n[0] = f
  for (let i = 1; i < 4; i++) n[i] = (n[i]! - f * d[i]!) * by
  let at = 4
  for (let i = 1; i < 4; i++)
    for (let k = i; k < 4; k++, at++) n[at] = (n[at]! - f * d[at]! - n[i]! * d[k]! - d[i]! * n[k]!) * by
  return n
}
