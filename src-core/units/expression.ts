/**
 * What a person types into a number field: a plain number, a number with a unit, or a small sum of them
 * (`3/8 in + 2`, `12,5`, `3 ft 2 in`, `sqrt(2)*40`). mathjs only parses the text into a tree; the tree is walked
 * against an allow-list and worked out here, so nothing that it could name is ever called.
 */
import {
  addDependencies,
  create,
  divideDependencies,
  multiplyDependencies,
  parseDependencies,
  powDependencies,
  subtractDependencies,
  unitDependencies,
  type FactoryFunctionMap,
  type MathNode,
  type Unit,
} from 'mathjs'
import { convert } from './convert.ts'
import { plain } from './format.ts'
import { mixedNumberIn, normaliseQuantity, type Refusal } from './quantityText.ts'

export type Expression = { readonly ok: true; readonly value: number } | Refusal

/** What the field holds, for the wording of a refusal. */
export interface Wanted {
  /** Unit of the answer and of plain numbers, as mathjs writes it: 'mm', 'in', 'kg', 'deg', 'm/min'. '' is a plain number. */
  readonly unit: string
  /** In plain words with its article: 'a length', 'a mass'. */
  readonly kind: string
}

const LIMIT = { characters: 200, nodes: 100, power: 6 } as const

// mathjs types each *Dependencies name as possibly undefined under noUncheckedIndexedAccess.
const factories: FactoryFunctionMap = {
  addDependencies: addDependencies!,
  subtractDependencies: subtractDependencies!,
  multiplyDependencies: multiplyDependencies!,
  divideDependencies: divideDependencies!,
  powDependencies: powDependencies!,
  parseDependencies: parseDependencies!,
  unitDependencies: unitDependencies!,
}
type Value = number | Unit
interface Arithmetic {
  parse(text: string): MathNode
  unit(text: string): Unit
  unit(value: number, unit: string): Unit
  add(a: Value, b: Value): Value
  subtract(a: Value, b: Value): Value
  multiply(a: Value, b: Value): Value
  divide(a: Value, b: Value): Value
  pow(a: Value, b: number): Value
}
let made: Arithmetic | undefined
/** Made when the first field is read: it takes longer than all the rest of a start. */
const math = (): Arithmetic => (made ??= create(factories, {}) as unknown as Arithmetic)

/** The unit names a field knows; the value is mathjs's own name for it. */
const UNITS: Readonly<Record<string, string>> = {
  um: 'um', mm: 'mm', cm: 'cm', m: 'm', inch: 'inch', inches: 'inch', ft: 'ft', feet: 'ft', foot: 'ft',
  mg: 'mg', g: 'g', kg: 'kg', lb: 'lbm', lbs: 'lbm', lbm: 'lbm', oz: 'oz',
  deg: 'deg', degree: 'deg', degrees: 'deg', rad: 'rad',
  N: 'N', kN: 'kN', lbf: 'lbf', s: 's', sec: 's', min: 'minute',
} // prettier-ignore
/** Named lengths that mathjs does not have. */
const MADE: Readonly<Record<string, readonly [number, string]>> = {
  thou: [0.001, 'inch'],
  mil: [0.001, 'inch'],
}
const CONSTANTS: Readonly<Record<string, number>> = { pi: Math.PI }
const FUNCTIONS: Readonly<Record<string, (x: number) => number>> = {
  sqrt: Math.sqrt,
  abs: Math.abs,
  sin: Math.sin,
  cos: Math.cos,
  tan: Math.tan,
}
const TRIGONOMETRIC = new Set(['sin', 'cos', 'tan'])

/** Carries a refusal out of the walk; never leaves this module. */
class Refused extends Error {}
const refuse = (reason: string): never => {
  throw new Refused(reason)
}

/**
 * Reads a field's text. The answer is a finite number in `wanted.unit`; plain numbers count in that unit too, also
 * inside a sum (`3/8 in + 2` in a millimetre field is 11.525). Mixed numbers are read by any field but one in
 * millimetres. What cannot be read comes back as a reason.
 */
export function readExpression(text: string, wanted: Wanted): Expression {
  if (text.length > LIMIT.characters)
    return { ok: false, reason: `That is longer than ${LIMIT.characters} characters.` }
  const mixed = wanted.unit === 'mm' ? mixedNumberIn(text) : null
  if (mixed !== null) return inMillimetres(mixed, wanted)
  const normal = normaliseQuantity(text, wanted.unit)
  if (!normal.ok) return normal
  let tree: MathNode
  try {
    tree = math().parse(normal.text)
  } catch {
    return { ok: false, reason: `"${text.trim()}" is not a number or a sum that can be read.` }
  }
  try {
    return { ok: true, value: inUnit(walk(tree, wanted, { nodes: 0 }), wanted) }
  } catch (error) {
    if (error instanceof Refused) return { ok: false, reason: error.message }
    return {
      ok: false,
      reason: `"${text.trim()}" mixes units that do not go together; ${wanted.kind} is wanted.`,
    }
  }
}

/** A field in millimetres takes no mixed number: what to type instead. */
function inMillimetres(mixed: string, wanted: Wanted): Refusal {
  const read = readExpression(mixed, { ...wanted, unit: 'in' })
  if (!read.ok) return read
  const tight = /\d+-\d+\s*\/\s*\d+/.exec(mixed)
  const difference = tight ? ` A difference is typed with spaces: ${tight[0].replace('-', ' - ')}.` : ''
  const words = `This field takes millimetres: ${mixed} is ${plain(convert(read.value, 'in', 'mm'), 3)} mm.`
  return { ok: false, reason: words + difference }
}

function inUnit(value: Value, wanted: Wanted): number {
  let number: number
  if (typeof value === 'number') number = value
  else if (wanted.unit === '') return refuse(`${wanted.kind} is wanted here, without a unit.`)
  else {
    if (!value.equalBase(math().unit(1, wanted.unit)))
      return refuse(
        `${value.formatUnits() || 'That'} does not fit: ${wanted.kind} is wanted, in ${wanted.unit} or alike.`,
      )
    number = value.toNumber(wanted.unit)
  }
  return Number.isFinite(number) ? number : refuse('That does not come to a finite number.')
}

interface Tally {
  nodes: number
}
interface OperatorLike {
  fn: string
  op: string
  args: MathNode[]
  implicit: boolean
}

function walk(node: MathNode, wanted: Wanted, tally: Tally): Value {
  if (++tally.nodes > LIMIT.nodes) return refuse('That has too many terms.')
  const inner = (n: MathNode) => walk(n, wanted, tally)
  switch (node.type) {
    case 'ConstantNode': {
      const { value } = node as unknown as { value: unknown }
      return typeof value === 'number' ? value : refuse('Only numbers and units can be used here.')
    }
    case 'ParenthesisNode':
      return inner((node as unknown as { content: MathNode }).content)
    case 'SymbolNode':
      return named((node as unknown as { name: string }).name)
    case 'FunctionNode':
      return called(node as unknown as { fn: { name?: string }; args: MathNode[] }, inner)
    case 'OperatorNode':
      return operate(node as unknown as OperatorLike, inner, wanted)
    default:
      return refuse('Only numbers, units, + − × ÷, powers and brackets can be used here.')
  }
}

function named(name: string): Value {
  if (Object.hasOwn(CONSTANTS, name)) return CONSTANTS[name]!
  if (Object.hasOwn(UNITS, name)) return math().unit(1, UNITS[name]!)
  if (Object.hasOwn(MADE, name)) return math().unit(...MADE[name]!)
  return refuse(`"${name}" is not a unit known here.`)
}

function called(node: { fn: { name?: string }; args: MathNode[] }, inner: (n: MathNode) => Value): number {
  const name = node.fn.name ?? ''
  if (!Object.hasOwn(FUNCTIONS, name) || node.args.length !== 1) return refuse(`"${name}" is not known here.`)
  const argument = inner(node.args[0]!)
  if (TRIGONOMETRIC.has(name)) {
    if (typeof argument === 'number') return refuse(`${name} wants an angle with its unit: ${name}(30 deg).`)
    return FUNCTIONS[name]!(argument.toNumber('rad'))
  }
  if (typeof argument !== 'number') return refuse(`${name} wants a plain number.`)
  return FUNCTIONS[name]!(argument)
}

function operate(node: OperatorLike, inner: (n: MathNode) => Value, wanted: Wanted): Value {
  const [first, second] = node.args
  if (node.fn === 'unaryMinus') return math().multiply(-1, inner(first!))
  if (node.fn === 'unaryPlus') return inner(first!)
  if (!second) return refuse(`"${node.op}" cannot be used here.`)
  if (node.implicit && !isUnit(second)) return refuse('A sign is missing between two numbers: write + or *.')
  const a = inner(first!)
  const b = inner(second)
  switch (node.fn) {
    case 'add':
    case 'subtract':
      return math()[node.fn](...alike(a, b, wanted))
    case 'multiply':
      return math().multiply(a, b)
    case 'divide':
      return b === 0 ? refuse('That divides by zero.') : math().divide(a, b)
    case 'pow':
      if (typeof b !== 'number' || Math.abs(b) > LIMIT.power)
        return refuse(`A power is a plain number up to ${LIMIT.power}.`)
      return math().pow(a, b)
    default:
      return refuse(`"${node.op}" cannot be used here.`)
  }
}

/** A unit by name, or one to a power: what may follow a number without a sign. */
function isUnit(node: MathNode): boolean {
  if (node.type === 'SymbolNode') {
    const { name } = node as unknown as { name: string }
    return Object.hasOwn(UNITS, name) || Object.hasOwn(MADE, name)
  }
  const { fn, args } = node as unknown as OperatorLike
  return node.type === 'OperatorNode' && fn === 'pow' && isUnit(args[0]!)
}

/** In a sum of a plain number and a quantity the plain one counts in the field's unit. */
function alike(a: Value, b: Value, wanted: Wanted): [Value, Value] {
  if (typeof a === typeof b || wanted.unit === '') return [a, b]
  const lift = (v: Value) => (typeof v === 'number' ? math().unit(v, wanted.unit) : v)
  return [lift(a), lift(b)]
}
