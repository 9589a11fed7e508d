/**
 * A check sum of a setup: ten characters that tell whether a sheet of paper and a job still say the same, and by which
 * the job is found. Made of what is put on the machine, not of how it is drawn, judged or run.
 */
import { keptOf } from '../geometry/kept.ts'
import { sha256 } from '@noble/hashes/sha2.js'
import { canonical } from './canonical.ts'
import type { Job, Part, Setup } from './schema.ts'

/** Crockford's base 32 (from memory): no I, L, O, U, so that what is read off paper is typed right. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
/** 50 bits: among 10,000 setups two are alike by chance less than once in twenty million books. */
const LENGTH = 10
const GROUP = 5

/**
 * The check sum of lathe, plate, part, one setup and the weights that it takes from the stock, such as `7K3F9-QXM2T`.
 * The photograph under the part, the looks of the sheet and the number of weights in stock are left out, and a field that
 * is null is as one that is not there.
 */
export function checkSum(job: Job, setup: Setup): string {
  const { lathe, plate, part } = job
  const digests = [digestOf(lathe), digestOf(plate), partDigest(part), setupDigest(job, setup)]
  return written(sha256(digests.join(' ')))
}

/**
 * A check sum as someone typed or scanned it, written as `checkSum` writes it; null for anything else. Case, spaces and
 * hyphens do not matter, nor does O for 0, I or L for 1.
 */
export function readCheckSum(typed: string): string | null {
  const plain = typed.toUpperCase().replace(/[\s-]/g, '').replaceAll('O', '0').replace(/[IL]/g, '1')
  return plain.length === LENGTH && [...plain].every((c) => LETTERS.includes(c)) ? grouped(plain) : null
}

const grouped = (letters: string): string => `${letters.slice(0, GROUP)}-${letters.slice(GROUP)}`

/** The first bits of a hash, five a letter. */
function written(bytes: Uint8Array): string {
  let letters = ''
  for (let i = 0; i < LENGTH; i++) {
    const bit = 5 * i
    const pair = (bytes[bit >> 3]! << 8) | bytes[(bit >> 3) + 1]!
    letters += LETTERS.charAt((pair >> (11 - (bit & 7))) & 31)
  }
  return grouped(letters)
}

/** Left out wherever they stand: a picture to trace, how a drawing looks. */
const LEFT_OUT = new Set(['photograph', 'sheet'])

function setupDigest({ stock }: Job, setup: Setup): string {
  const taken = new Set(
    setup.hardware.flatMap((item) => (item.kind === 'weight' ? item.stack.map((s) => s.stock) : [])),
  )
  const weights = stock.filter((s) => taken.has(s.id)).map((s) => ({ ...s, count: undefined }))
  return digestOf({ setup, weights })
}

/** Body by body, for of a mesh of thousands of triangles only its place is changed. */
const partDigest = (part: Part): string => digestOf({ ...part, bodies: part.bodies.map(digestOf) })

/** Of an immutable piece of the job, which is gone through once. */
const digestOf = keptOf((value: object): string =>
  Array.from(sha256(canonical(value, LEFT_OUT)), (byte) => byte.toString(16).padStart(2, '0')).join(''),
)
