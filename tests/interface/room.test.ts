/** Room: at the least size and at the usual one nothing is cut off, and an open step has the height. */
import { describe, expect, test } from 'vitest'
import { clipped } from './clipped.ts'
import { WALKS } from './screens.ts'
import { useBench } from './window.ts'

const bench = useBench()

describe.each([
  { width: 1024, height: 768 },
  { width: 1280, height: 800 },
])('$width × $height', (size) => {
  test.each(Object.entries(WALKS).filter(([name]) => name !== 'lathe'))(
    '%s: nothing is cut off, nothing lies outside the window',
    async (_name, walk) => {
      await walk(bench, { ...size, still: true }, async (page, screen) => {
        expect(await clipped(page), screen).toEqual([])
      })
    },
  )

  test('an open step has the height between title and speeds, the others are a row of numbers', async () => {
    const page = await bench.open(size)
    await page.keyboard.press('Alt+4')
    const step = (await page.locator('#step-clamps').boundingBox())!
    const nav = (await page.getByRole('navigation').boundingBox())!
    expect(step.y - nav.y).toBeLessThan(90)
    expect(Math.abs(step.y + step.height - (nav.y + nav.height))).toBeLessThan(2)
    const tops = await page
      .getByRole('navigation')
      .locator('h2 button')
      .evaluateAll((all) => all.map((node) => node.getBoundingClientRect().top))
    expect(tops).toHaveLength(7)
    expect(new Set(tops).size).toBe(1)
  })

  test('with the sheet open the findings stand where they can be read', async () => {
    const page = await bench.open(size)
    await page.keyboard.press('Control+p')
    await page.getByRole('img', { name: /^Setup sheet/ }).waitFor()
    const findings = (await page.locator('.findings .scroll').boundingBox())!
    expect(findings.height).toBeGreaterThan(size.height * 0.35)
    expect(findings.width).toBeGreaterThan(200)
  })
})

test('the whole part is seen between the tools and the fields of drawing', async () => {
  const page = await bench.open({ width: 1024, height: 768, still: true })
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.getByTestId('plate').focus()
  await page.keyboard.press('.')
  await page.getByRole('button', { name: 'Move, turn, mirror, copy' }).click()
  const free = async () => {
    const box = async (of: string) => (await page.locator(of).boundingBox())!
    const [bar, foot, plate] = [
      await box('.bar[role=toolbar]:has(.primary)'),
      await box('.foot'),
      await box('[data-plate]'),
    ]
    const [scale, , y] = (await page.getByTestId('plate').getAttribute('data-camera'))!.split(' ').map(Number)
    // The link reaches 45 mm up and down from the axis through its middle.
    const at = (mm: number) => plate.y + plate.height / 2 - scale! * (mm - y!)
    return { above: at(45) - (bar.y + bar.height), below: foot.y - at(-45) }
  }
  await expect.poll(async () => (await free()).above).toBeGreaterThan(0)
  await expect.poll(async () => (await free()).below).toBeGreaterThan(0)
})

test.each([
  { width: 640, height: 400 },
  { width: 512, height: 384 },
])(
  'at twice its size, $width × $height, one thing stands under the other and none over another',
  async (size) => {
    const page = await bench.open({ ...size, zoom: 2, still: true })
    const boxes = await page.locator('.window > :is(header, nav, main, aside, section)').evaluateAll((all) =>
      all.map((node) => {
        const { top, bottom, left, right } = node.getBoundingClientRect()
        return { top, bottom, left, right }
      }),
    )
    expect(boxes).toHaveLength(5)
    const down = boxes.sort((a, b) => a.top - b.top)
    for (const [i, box] of down.entries()) {
      expect(box.bottom - box.top).toBeGreaterThan(60)
      expect(box.left).toBeGreaterThanOrEqual(0)
      expect(box.right).toBeLessThanOrEqual(size.width)
      if (i > 0) expect(box.top).toBeGreaterThanOrEqual(down[i - 1]!.bottom - 1)
    }
    await page.keyboard.press('Alt+4')
    await page.getByRole('list', { name: 'Clamps' }).getByRole('button').first().click()
    await page.getByRole('tab', { name: 'Before/after' }).click()
    await page.getByTestId('before-after').waitFor()
  },
)
