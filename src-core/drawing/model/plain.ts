import type { Drawing, PlainPrimitive, Primitive } from './model.ts'

/** What primitives draw: a dimension stands for its lines, arrowheads and text, a radius with angle for its texts. */
export const plainParts = (primitives: readonly Primitive[]): PlainPrimitive[] =>
  primitives.flatMap((p) => ('parts' in p ? p.parts : [p]))

/** All that is drawn, in painting order. */
export const plainPrimitives = (drawing: Drawing): PlainPrimitive[] => plainParts(drawing.primitives)

/** One line of text for a file: control characters (line ends too) and lone surrogates become spaces. */
export function plainText(text: string): string {
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufffe\uffff]|\p{Surrogate}/gu, ' ')
}
