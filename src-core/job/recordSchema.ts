/** What a job keeps beside its parts and setups: pictures, how its sheets look, what was done at the machine. */
import { z } from 'zod'
import { coordinate, id, LIMITS, optional, orNull, positiveLength, speed, text } from './fields.ts'

/** A PNG or JPEG, its bytes in base64; `width` and `height` in pixels. */
const picture = z.strictObject({
  name: text,
  type: z.enum(['image/png', 'image/jpeg']),
  width: z.int().min(1).max(LIMITS.picturePixels),
  height: z.int().min(1).max(LIMITS.picturePixels),
  data: z.base64().max(Math.ceil(LIMITS.pictureBytes / 3) * 4),
})

/** A point of the picture (pixels, right and down from its upper left corner) and where it lies in the part's plan. */
const tie = z.strictObject({ u: coordinate, v: coordinate, x: coordinate, y: coordinate })

/**
 * A photograph under the plan, to trace over. Two ties place and scale it, a known distance apart; four, the corners
 * of a known rectangle, square it up as well.
 */
export const photograph = z.strictObject({
  picture,
  ties: z.union([z.tuple([tie, tie]), z.tuple([tie, tie, tie, tie])]),
  /** 0 not to be seen to 1 in full. */
  opacity: z.number().min(0).max(1),
  locked: z.boolean(),
})

/** How this setup's drawing is to look; what is left out is chosen by the program. */
export const sheet = z.strictObject({
  size: z.enum(['A4', 'A3', 'A2', 'A1', 'ANSI-A', 'ANSI-B', 'ANSI-C', 'ANSI-D']).optional(),
  /** Sheet over model, e.g. 0.5 for 1:2. */
  scale: z.number().positive().max(100).optional(),
  projection: z.enum(['first', 'third']).optional(),
  /**
   * Dimensions moved or hidden by hand, sheet mm: `offset` is the dimension line's distance from its first point;
   * `place`, for those without such a line, where text or balloon stands from the middle of what they measure.
   */
  dimensions: z
    .record(
      z.string().min(1).max(200),
      z.strictObject({
        hidden: z.boolean().optional(),
        offset: z.number().min(-1000).max(1000).optional(),
        place: z
          .strictObject({ x: z.number().min(-1000).max(1000), y: z.number().min(-1000).max(1000) })
          .optional(),
      }),
    )
    .optional(),
})

/** What was done at the machine, so that the next time starts from what worked. */
export const run = z.strictObject({
  id,
  /** Calendar date, yyyy-mm-dd. */
  date: z.iso.date(),
  setup: id,
  by: text,
  /** rpm; null where none was noted. */
  speed: orNull(speed),
  trimmed: text,
  remarks: text,
  photograph: optional(picture),
  /** Whether its steps were gone through to the end or left before; left out where it was noted by hand. */
  state: optional(z.enum(['done', 'left'])),
  /** Ids of the steps that were done. */
  done: optional(z.array(z.string().min(1).max(200)).max(LIMITS.runs)),
  /** Sets of trim readings in their order, each the text of a file that `trim` takes. */
  readings: optional(z.array(text).max(LIMITS.runs)),
  /** Diameters measured after passes of a bore, mm. */
  sizes: optional(
    z
      .array(z.strictObject({ cut: id, pass: z.int().min(1).max(1000), size: positiveLength }))
      .max(LIMITS.runs),
  ),
})

/** What was changed from one issue of the sheets to the next, oldest first; dates as the shop writes them. */
export const revision = z.strictObject({ mark: text, date: text, text })

/** Fields of the title block that are the same on every sheet of the job. */
export const titleBlock = z.strictObject({
  owner: text.optional(),
  by: text.optional(),
  approved: text.optional(),
  revision: text.optional(),
})
