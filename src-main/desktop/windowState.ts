/** Where the window was last, kept for the next start. */
import { screen, type BrowserWindow, type Rectangle } from 'electron'
import { join } from 'node:path'
import { z } from 'zod'
import { readKept, writeKept } from '../services/keptJson.ts'

export const SMALLEST = { width: 900, height: 600 }
export const USUAL = { width: 1360, height: 880 }

const pixels = z.int().min(-100_000).max(100_000)
const size = z.int().min(1).max(100_000)
const schema = z.strictObject({
  bounds: z.strictObject({ x: pixels, y: pixels, width: size, height: size }),
  maximised: z.boolean(),
})
export type WindowState = z.infer<typeof schema>

export interface WindowKeeper {
  /** Null where there is none, where it is damaged (then set aside), or where its display is gone. */
  read(): Promise<WindowState | null>
  /** Keeps the state of a window from now on. */
  follow(window: BrowserWindow): void
  /** When everything that was to be kept is kept. */
  settled(): Promise<void>
}

export function createWindowKeeper(userData: string, report: (error: unknown) => void): WindowKeeper {
  const file = join(userData, 'window.json')
  let last: Promise<void> = Promise.resolve()
  return {
    async read() {
      try {
        const { value } = await readKept(file, schema, 10_000)
        return value && isSeen(value.bounds, screen.getAllDisplays()) ? value : null
      } catch (error) {
        report(error)
        return null
      }
    },
    follow(window) {
      window.on('close', () => {
        const state: WindowState = { bounds: window.getNormalBounds(), maximised: window.isMaximized() }
        last = last.then(() => writeKept(file, state)).catch(report)
      })
    },
    settled: () => last,
  }
}

/** Whether enough of a window lies on a display to take hold of: its upper edge, a hundred pixels wide. */
export function isSeen(bounds: Rectangle, displays: readonly { readonly workArea: Rectangle }[]): boolean {
  if (bounds.width < SMALLEST.width || bounds.height < SMALLEST.height) return false
  return displays.some(({ workArea: area }) => {
    const wide = Math.min(bounds.x + bounds.width, area.x + area.width) - Math.max(bounds.x, area.x)
    return wide >= 100 && bounds.y >= area.y - 10 && bounds.y <= area.y + area.height - 50
  })
}
