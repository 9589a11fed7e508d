/**
 * The error function by W. J. Cody's rational Chebyshev approximations (Math. Comp. 23 (1969) 631; the coefficients of
 * his routine CALERF, as doubles hold them), good to the last digits of a double. Near nought erf is fitted, beyond it 1 − erf.
 */

/** Up to here erf itself is fitted. */
const NEAR = 0.46875
/** From here on 1 − erf is fitted in 1/x². */
const FAR = 4
/** Beyond this 1 − erf is lost in the rounding of 1. */
const WHOLE = 6
const ONE_BY_SQRT_PI = 0.5641895835477563

interface Fit {
  /** Rising powers, the leading one apart. */
  readonly over: readonly number[]
  readonly overLead: number
  readonly under: readonly number[]
}

/** erf(x)/x in x². */
const INNER: Fit = {
  over: [3.1611237438705655, 113.86415415105016, 377.485237685302, 3209.3775891384694],
  overLead: 0.18577770618460315,
  under: [23.601290952344122, 244.02463793444417, 1282.6165260773723, 2844.236833439171],
}
/** e^(x²)·(1 − erf x) in x. */
const MIDDLE: Fit = {
  over: [
    0.5641884969886701, 8.883149794388377, 66.11919063714163, 298.6351381974001, 881.952221241769,
    1712.0476126340707, 2051.0783778260716, 1230.3393547979972,
  ],
  overLead: 2.1531153547440383e-8,
  under: [
    15.744926110709835, 117.6939508913125, 537.1811018620099, 1621.3895745666903, 3290.7992357334597,
    4362.619090143247, 3439.3676741437216, 1230.3393548037495,
  ],
}
/** The same beyond `FAR`, in 1/x², as what 1/√π is lessened by. */
const OUTER: Fit = {
  over: [
    0.30532663496123236, 0.36034489994980445, 0.12578172611122926, 0.016083785148742275,
    0.0006587491615298378,
  ],
  overLead: 0.016315387137302097,
  under: [
    2.568520192289822, 1.8729528499234604, 0.5279051029514285, 0.06051834131244132, 0.0023352049762686918,
  ],
}

/** `times` · over/under, both sums by Horner's rule, in the order of the published routine. */
function quotient({ over, overLead, under }: Fit, x: number, times = 1): number {
  const last = over.length - 1
  let top = overLead * x
  let bottom = x
  for (let i = 0; i < last; i++) {
    top = (top + over[i]!) * x
    bottom = (bottom + under[i]!) * x
  }
  return (times * (top + over[last]!)) / (bottom + under[last]!)
}

/** e^(−x²): the square is split at sixteenths, for its rounding would be felt. */
function gauss(x: number): number {
  const coarse = Math.trunc(x * 16) / 16
  const rest = (x - coarse) * (x + coarse)
  return Math.exp(-coarse * coarse) * Math.exp(-rest)
}

/** 2/√π ∫₀ˣ e^(−t²) dt. */
export function erf(x: number): number {
  const y = Math.abs(x)
  if (y <= NEAR) return quotient(INNER, y * y, x)
  if (y <= FAR) return Math.sign(x) * (1 - gauss(y) * quotient(MIDDLE, y))
  if (y >= WHOLE) return Math.sign(x)
  const s = 1 / (y * y)
  return Math.sign(x) * (1 - gauss(y) * ((ONE_BY_SQRT_PI - s * quotient(OUTER, s)) / y))
}
