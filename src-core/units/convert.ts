/** Unit conversion by mathjs; factors are looked up once and kept. */
import { create, unitDependencies, type FactoryFunctionMap } from 'mathjs'

// mathjs types each *Dependencies name as possibly undefined under noUncheckedIndexedAccess.
const factories: FactoryFunctionMap = { unitDependencies: unitDependencies! }
const math = create(factories, {})
const factors = new Map<string, number>()

/** `value` in unit `from`, in unit `to`; both mathjs unit names of one dimension, else mathjs throws. */
export function convert(value: number, from: string, to: string): number {
  if (from === to) return value
  const key = `${from}>${to}`
  let factor = factors.get(key)
  if (factor === undefined) {
    factor = (math.unit(1, from) as { toNumber(unit: string): number }).toNumber(to)
    factors.set(key, factor)
  }
  return value * factor
}
