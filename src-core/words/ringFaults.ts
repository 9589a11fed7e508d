import type { RingFault, RingFaultKind } from '../geometry/ringFault.ts'

/** What is wrong with a ring, as the rest of a sentence that begins with the ring: an outline, or a hole. */
const WORDS: Readonly<Record<RingFaultKind, string>> = {
  'too-few-vertices': 'needs three distinct vertices (two where an edge is an arc)',
  'not-finite': 'has a number that is not finite',
  'repeated-vertex': 'has the same vertex twice in a row',
  'no-area': 'encloses no area',
  'crosses-itself': 'crosses or touches itself',
  'hole-crosses-outline': 'crosses or touches the outline',
  'hole-outside-outline': 'lies outside the outline',
  'holes-cross': 'crosses or touches another hole',
  'hole-inside-hole': 'lies inside another hole',
}

/** Said of the faulty ring itself. */
export const ringFaultWords = (fault: RingFault): string => WORDS[fault.kind]

/** Said of the outline that the faulty ring belongs to. */
export const regionFaultWords = (fault: RingFault): string =>
  fault.ring === 0 ? WORDS[fault.kind] : `has a hole that ${WORDS[fault.kind]}`
