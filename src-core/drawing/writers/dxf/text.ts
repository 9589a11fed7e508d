import { plainText } from '../../model/plain.ts'

/**
 * Text as it stands in a TEXT entity. "%%" starts a code there ("%%c" is a diameter sign) and readers do not agree
 * on an escape, so two percent signs are parted by a space; "^" starts a control character and "^ " is the caret.
 */
export function dxfText(text: string): string {
  return plainText(text)
    .replaceAll('^', '^ ')
    .replace(/%(?=%)/g, '% ')
}

/** Text as it stands in a DIMENSION, which reads MTEXT codes: backslash and braces are escaped besides. */
export function dxfDimensionText(text: string): string {
  return dxfText(text).replace(/[\\{}]/g, '\\$&')
}
