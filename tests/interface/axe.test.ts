/** Every screen and dialog, light and dark, against the rules of axe-core. */
import { describe, expect, test } from 'vitest'
import { WALKS } from './screens.ts'
import { violations } from './violations.ts'
import { useBench } from './window.ts'

const bench = useBench()

describe.each([{ dark: false }, { dark: true }])('without violations, dark: $dark', (look) => {
  test.each(Object.entries(WALKS))('%s', async (_name, walk) => {
    const seen: string[] = []
    await walk(bench, look, async (page, screen) => {
      seen.push(screen)
      expect(await violations(page), screen).toEqual([])
    })
    expect(new Set(seen).size).toBe(seen.length)
    expect(seen.length).toBeGreaterThan(0)
  })
})
