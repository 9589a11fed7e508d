/** Checks of arguments that several requests share. */
import { z } from 'zod'

export const nothing = z.tuple([])
export const name = z.string().max(1000)
export const stamp = z.string().max(200).nullable()
export const fileRef = z.strictObject({
  id: z.string().min(1).max(100),
  name: z.string().max(1000),
  folder: z.string().max(10_000),
})
