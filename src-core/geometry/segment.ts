/**
 * Moments of a circular segment (between an arc and its chord) in units of the radius, as functions of the half
 * angle φ of the arc: chord along u, centred; v outward from the chord.
 *
 *   area     ∫dA    = r²·N1,  N1 = φ − ½ sin 2φ
 *   first    ∫v dA  = r³·N2,  N2 = ¾ sin φ + (1/12) sin 3φ − φ cos φ
 *   second   ∫v² dA = r⁴·N3,  N3 = ¾φ + ½φ cos 2φ − (7/12) sin 2φ − (1/48) sin 4φ
 *   second   ∫u² dA = r⁴·N4,  N4 = ¼φ − (1/6) sin 2φ + (1/48) sin 4φ
 *
 * from the segment's integrals about its circle's centre (area r²(φ − sin φ cos φ), first moment chord³/12,
 * second moments as in handbooks) moved to the chord and written in multiple angles. For small φ the leading
 * terms cancel, so there the Taylor series are summed instead, from the first term that survives: φ³, φ⁵, φ⁷, φ⁵.
 */
export interface SegmentIntegrals {
  readonly n1: number
  readonly n2: number
  readonly n3: number
  readonly n4: number
}

const SERIES_BELOW = 0.6
const TERMS = 16

/** Coefficients of φ^(2k+1), k = 0 …: (−1)^k / (2k+1)! times the bracket of each series. */
const coefficients = Array.from({ length: TERMS }, (_, k) => {
  let factorial = 1
  for (let i = 2; i <= 2 * k + 1; i++) factorial *= i
  const s = (k % 2 === 0 ? 1 : -1) / factorial
  const two = 2 ** (2 * k)
  const four = 4 ** (2 * k)
  return {
    n1: k < 1 ? 0 : -s * two,
    n2: k < 2 ? 0 : s * (0.75 + 3 ** (2 * k + 1) / 12 - (2 * k + 1)),
    n3: k < 3 ? 0 : s * (0.5 * two * (2 * k + 1) - (7 / 6) * two - four / 12),
    n4: k < 2 ? 0 : s * (-two / 3 + four / 12),
  }
})

/** The last one asked for: outlines repeat few angles, and rings are weighed several times. */
let last = { phi: NaN, integrals: { n1: NaN, n2: NaN, n3: NaN, n4: NaN } }

/** @param phi half of the arc's included angle, radians, 0 to π. */
export function segmentIntegrals(phi: number): SegmentIntegrals {
  if (last.phi !== phi) last = { phi, integrals: integrate(phi) }
  return last.integrals
}

function integrate(phi: number): SegmentIntegrals {
  if (phi < SERIES_BELOW) {
    const square = phi * phi
    let power = phi
    let n1 = 0
    let n2 = 0
    let n3 = 0
    let n4 = 0
    for (const c of coefficients) {
      const before3 = n3
      n1 += c.n1 * power
      n2 += c.n2 * power
      n3 += c.n3 * power
      n4 += c.n4 * power
      power *= square
      // The slowest of the four has come to rest: what follows is smaller still.
      if (n3 === before3 && n3 !== 0) break
    }
    return { n1, n2, n3, n4 }
  }
  const s2 = Math.sin(2 * phi)
  const s4 = Math.sin(4 * phi)
  return {
    n1: phi - s2 / 2,
    n2: 0.75 * Math.sin(phi) + Math.sin(3 * phi) / 12 - phi * Math.cos(phi),
    n3: 0.75 * phi + 0.5 * phi * Math.cos(2 * phi) - (7 / 12) * s2 - s4 / 48,
    n4: phi / 4 - s2 / 6 + s4 / 48,
  }
}
