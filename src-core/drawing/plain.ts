import type { Drawing, PlainPrimitive } from './model.ts'

/** All that is drawn, in painting order: a dimension stands for the lines, arrowheads and text it is made of, as does a radius with its angle. */
export function plainPrimitives(drawing: Drawing): PlainPrimitive[] {
  return drawing.primitives.flatMap((p) => ('parts' in p ? p.parts : [p]))
}

/** One line of text for a file: control characters (line ends too) and lone surrogates become spaces. */
export function plainText(text: string): string {
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufffe\uffff]|\p{Surrogate}/gu, ' ')
}
