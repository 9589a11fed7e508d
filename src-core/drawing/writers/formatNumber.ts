/**
 * A number as text for a drawing file: at most `decimals` decimals, '.' whatever the locale, no exponent, no
 * trailing zeros, never "-0".
 *
 * @throws RangeError if the value is not finite, or so large (1e21) that it could only be written with an exponent
 */
export function formatNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e21) {
    throw new RangeError(`Cannot write ${value} to a drawing`)
  }
  const fixed = value.toFixed(decimals)
  const trimmed = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed
  return trimmed === '-0' ? '0' : trimmed
}
