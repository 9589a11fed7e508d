/** What is used of fontkit, which comes without types. */
declare module 'fontkit' {
  export interface Font {
    readonly unitsPerEm: number
    hasGlyphForCodePoint(codePoint: number): boolean
    glyphForCodePoint(codePoint: number): { readonly advanceWidth: number }
  }
  export function create(bytes: Uint8Array): Font
}
