import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { project } from '../../src-core/picture/matrix.ts'
import { planMap, type Ties } from '../../src-core/picture/planMap.ts'
import { makeJpeg, makePng, type Colour } from '../helpers/pictures.ts'
import { useBench } from './window.ts'

const bench = useBench()
interface At {
  readonly x: number
  readonly y: number
}
const RED: Colour = [230, 20, 20]
const PAPER: Colour = [214, 224, 205]

/** A sheet of paper with red dots of `radius` pixels, middles as given. */
const dots = (width: number, height: number, at: readonly (readonly [number, number])[], radius = 4) =>
  makePng(width, height, (x, y) =>
    at.some(([u, v]) => Math.hypot(x + 0.5 - u, y + 0.5 - v) <= radius) ? RED : PAPER,
  )

const dialog = (page: Page) => page.getByRole('dialog', { name: 'Trace a photograph' })
async function fill(page: Page, name: string, value: string): Promise<void> {
  const field = page.getByRole('textbox', { name, exact: true })
  await field.fill(value)
  await page.keyboard.press('Enter')
}
async function choose(page: Page, name: string, buffer: Buffer): Promise<void> {
  await dialog(page)
    .locator('input[type=file]')
    .setInputFiles({ name, mimeType: name.endsWith('png') ? 'image/png' : 'image/jpeg', buffer })
}
/** Clicks a pixel of the picture in the dialog. */
async function clickPixel(page: Page, u: number, v: number, width: number): Promise<void> {
  const box = (await page.getByTestId('picture').boundingBox())!
  const scale = box.width / width
  await page.mouse.click(box.x + u * scale, box.y + v * scale)
}
const shown = (page: Page) => page.locator('[data-photograph=shown]').waitFor()

/** Middles of the red spots in what the plate's picture shows, in page pixels, from left to right. */
async function redSpots(page: Page): Promise<At[]> {
  const plate = page.getByTestId('plate')
  const box = (await plate.boundingBox())!
  const png = (await page.screenshot({ clip: box })).toString('base64')
  const spots = await page.evaluate(async (data) => {
    const bytes = Uint8Array.from(atob(data), (c) => c.charCodeAt(0))
    const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }))
    const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!
    context.drawImage(image, 0, 0)
    const { data: d } = context.getImageData(0, 0, image.width, image.height)
    const found: { n: number; x: number; y: number }[] = []
    for (let y = 0; y < image.height; y++)
      for (let x = 0; x < image.width; x++) {
        const i = 4 * (y * image.width + x)
        if (!(d[i]! > 150 && d[i + 1]! < 90 && d[i + 2]! < 110)) continue
        const near = found.find((f) => Math.hypot(f.x / f.n - x, f.y / f.n - y) < 30)
        if (near) {
          near.n++
          near.x += x + 0.5
          near.y += y + 0.5
        } else found.push({ n: 1, x: x + 0.5, y: y + 0.5 })
      }
    return found.filter((f) => f.n > 4).map((f) => ({ x: f.x / f.n, y: f.y / f.n }))
  }, png)
  return spots.map((s) => ({ x: s.x + box.x, y: s.y + box.y })).sort((a, b) => a.x - b.x)
}

/** So many of them, once they are all drawn. */
async function spotsOf(page: Page, count: number): Promise<At[]> {
  await expect.poll(async () => (await redSpots(page)).length).toBe(count)
  return redSpots(page)
}

/** Measures between two places on the page with the tool, held free of snapping. */
async function measure(page: Page, from: At, to: At): Promise<number> {
  await page.getByRole('button', { name: 'Measure' }).click()
  await page.keyboard.down('Alt')
  await page.mouse.click(from.x, from.y)
  await page.mouse.click(to.x, to.y)
  await page.keyboard.up('Alt')
  return Number.parseFloat((await page.getByTestId('measured').innerText()).replace(',', '.'))
}

describe('tracing a photograph', () => {
  test('from the first screen: what is traced is the part, and nothing stands beside it', async () => {
    const page = await bench.open({ atStart: true })
    await page.getByRole('button', { name: /^Trace a photograph/ }).click()
    await choose(page, 'bench.png', dots(600, 400, [[100, 300], [500, 300]])) // prettier-ignore
    await page.getByTestId('picture').waitFor()
    await clickPixel(page, 100, 300, 600)
    await clickPixel(page, 500, 300, 600)
    await fill(page, 'Distance from 1 to 2', '120')
    await dialog(page).getByRole('button', { name: 'Put it under the plan' }).click()
    await shown(page)
    const entry = page.locator('#draw-entry')
    for (const point of ['-60, -40', '80, -40', '80, 40', '-60, 40', '']) {
      await entry.fill(point)
      await entry.press('Enter')
    }
    await page.getByRole('button', { name: 'Undo: Draw the ring anew' }).waitFor()
    const bodies = page.getByRole('list', { name: 'Bodies' })
    expect(await bodies.getByRole('button', { name: /^Remove (body|pocket)\d*$/ }).count()).toBe(1)
  })

  test('scaled by a known distance with the pointer: what is measured on it comes out in mm', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: 'Draw the part' }).click()
    await page.getByRole('button', { name: 'Photograph to trace' }).click()
    await choose(page, 'bench.png', dots(600, 400, [[100, 300], [500, 300], [400, 100]])) // prettier-ignore
    await page.getByTestId('picture').waitFor()
    await clickPixel(page, 100, 300, 600)
    await clickPixel(page, 500, 300, 600)
    const place = dialog(page).getByRole('button', { name: 'Put it under the plan' })
    expect(await place.isDisabled()).toBe(true)
    await fill(page, 'Distance from 1 to 2', '4 in')
    await place.click()
    await shown(page)
    await page.getByRole('button', { name: 'Undo: Add a photograph' }).waitFor()
    await page.getByRole('slider', { name: 'Shown at' }).fill('100')
    await page.getByRole('button', { name: 'Undo: Fade the photograph' }).waitFor()
    const [a, b, c] = (await spotsOf(page, 3)) as [At, At, At]
    // 4 in over 400 pixels; the third dot is 100 pixels left of the second and 200 above it.
    expect(Math.abs((await measure(page, a, c)) - 101.6)).toBeLessThan(0.8)
    expect(Math.abs((await measure(page, b, c)) - 0.254 * Math.hypot(100, 200))).toBeLessThan(0.8)
  })

  test('from the keyboard alone: pixels typed, moved, turned, faded, locked, saved and opened again', async () => {
    const page = await bench.open()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('p')
    await choose(page, 'typed.png', dots(300, 200, [[50, 150], [250, 150]])) // prettier-ignore
    await page.getByTestId('picture').waitFor()
    for (const [name, value] of [
      ['1 across', '50'],
      ['1 down', '150'],
      ['2 across', '250'],
      ['2 down', '150'],
      ['Distance from 1 to 2', '50'],
      ['1 lies at x', '-20'],
    ] as const)
      await fill(page, name, value)
    // A mark has the arrow keys, too.
    const mark = page.getByRole('button', { name: /^point 2, at 250, 150/ })
    await mark.focus()
    await page.keyboard.press('ArrowUp')
    expect(await page.getByRole('textbox', { name: '2 down', exact: true }).inputValue()).toBe('149')
    await page.keyboard.press('ArrowDown')
    await page.getByRole('button', { name: 'Put it under the plan' }).focus()
    await page.keyboard.press('Enter')
    await shown(page)

    // Locked: the keys leave it where it is.
    await page.getByRole('button', { name: 'Photograph to trace' }).click()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('ArrowRight')
    await page.getByRole('button', { name: 'Undo: Add a photograph' }).waitFor()
    await page.getByRole('checkbox', { name: 'Locked' }).click()
    expect(await page.getByRole('textbox', { name: 'Point 1, x' }).inputValue()).toBe('-20')
    await page.getByTestId('plate').focus()
    await page.keyboard.press('ArrowRight')
    await page.getByRole('button', { name: 'Undo: Move the photograph' }).waitFor()
    expect(await page.getByRole('textbox', { name: 'Point 1, x' }).inputValue()).toBe('-19')
    await page.keyboard.press('[')
    expect(await page.getByRole('textbox', { name: 'Direction 1 to 2' }).inputValue()).toBe('15')
    await fill(page, 'Direction 1 to 2', '0')
    await fill(page, 'From 1 to 2', '100')
    await page.getByRole('button', { name: 'Undo: Scale the photograph' }).waitFor()
    await page.getByRole('slider', { name: 'Shown at' }).focus()
    await page.keyboard.press('ArrowLeft')
    await page.getByRole('button', { name: 'Undo: Fade the photograph' }).waitFor()
    await page.getByRole('checkbox', { name: 'Locked' }).click()
    await page.getByRole('button', { name: 'Undo: Lock the photograph' }).waitFor()

    await page.keyboard.press('Control+s')
    await page.locator('#save-name').fill('traced')
    await page.keyboard.press('Enter')
    await page.getByText('Saved as traced').waitFor()
    const read = parseJob(await readFile(join(bench.folder(), 'traced.evenswing'), 'utf8'))
    const kept = read.ok ? read.job.part.photograph! : null
    expect(kept).toMatchObject({ locked: true, opacity: 0.65, picture: { width: 300, height: 200 } })
    expect(kept!.ties[1].x).toBeCloseTo(81, 6)

    const again = await bench.open()
    await again.keyboard.press('Control+o')
    await again.getByTestId('book-count').filter({ hasText: /\d/ }).waitFor()
    await again.getByRole('button', { name: 'Open', exact: true }).click()
    await again.getByTestId('job-book').waitFor({ state: 'detached' })
    await again.getByRole('button', { name: /^2 Part/ }).click()
    await again.getByRole('button', { name: 'Draw the part' }).click()
    await shown(again)
    await again.getByRole('slider', { name: 'Shown at' }).fill('100')
    await spotsOf(again, 2)
  })

  test('squared up from four corners: lengths across the slant come out in mm', async () => {
    // A rectangle of 80 by 50 mm seen at a slant, and three dots in it.
    const slant = [[120, 520], [700, 480], [590, 120], [200, 100]] as const // prettier-ignore
    const plan = [[0, 0], [80, 0], [80, 50], [0, 50]] as const // prettier-ignore
    const ties = slant.map(([u, v], i) => ({ u, v, x: plan[i]![0], y: plan[i]![1] })) as unknown as Ties
    const made = planMap(ties)
    if (!made.ok) throw new Error(made.reason)
    const at = (x: number, y: number) => {
      const p = project(made.map.toPixel, { x, y })
      return [p.x, p.y] as const
    }
    const page = await bench.open()
    await page.getByRole('button', { name: /^2 Part/ }).click()
    await page.getByRole('button', { name: 'Trace a photograph' }).click()
    await choose(page, 'slant.png', dots(800, 600, [at(22, 10), at(40, 30), at(58, 10)], 9))
    await page.getByTestId('picture').waitFor()
    await page.getByRole('combobox', { name: 'Scaled by' }).selectOption('rectangle')
    for (const [u, v] of slant) await clickPixel(page, u, v, 800)
    // A click is no finer than a pixel of the screen: put the marks right.
    for (const [i, [u, v]] of slant.entries()) {
      await fill(page, `${i + 1} across`, String(u))
      await fill(page, `${i + 1} down`, String(v))
    }
    await fill(page, 'Width, 1 to 2', '80')
    await fill(page, 'Height, 2 to 3', '2 * 25')
    await page.getByRole('button', { name: 'Put it under the plan' }).click()
    await shown(page)
    await page.getByRole('slider', { name: 'Shown at' }).fill('100')
    const [a, b, c] = (await spotsOf(page, 3)) as [At, At, At]
    expect(Math.abs((await measure(page, a, c)) - 36)).toBeLessThan(0.8)
    expect(Math.abs((await measure(page, a, b)) - Math.hypot(18, 20))).toBeLessThan(0.8)
  })

  test('corners clicked the wrong way round are refused in words', async () => {
    const page = await bench.open()
    await page.keyboard.press('Control+d')
    await page.getByRole('button', { name: 'Photograph to trace' }).click()
    await choose(page, 'p.png', dots(300, 200, []))
    await page.getByTestId('picture').waitFor()
    await page.getByRole('combobox', { name: 'Scaled by' }).selectOption('rectangle')
    for (const [u, v] of [
      [40, 30],
      [260, 30],
      [260, 170],
      [40, 170],
    ] as const)
      // prettier-ignore
      await clickPixel(page, u, v, 300)
    await fill(page, 'Width, 1 to 2', '80')
    await fill(page, 'Height, 2 to 3', '50')
    await dialog(page)
      .getByText(/would mirror the picture/)
      .waitFor()
    expect(await dialog(page).getByRole('button', { name: 'Put it under the plan' }).isDisabled()).toBe(true)
  })

  test('dragged by the pointer while unlocked, in one step; a locked one stays under every drag', async () => {
    const page = await bench.open()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('p')
    await choose(page, 'drag.png', dots(300, 200, [[100, 60], [200, 60]])) // prettier-ignore
    await page.getByTestId('picture').waitFor()
    await clickPixel(page, 50, 150, 300)
    await clickPixel(page, 250, 150, 300)
    await fill(page, 'Distance from 1 to 2', '100')
    await page.getByRole('button', { name: 'Put it under the plan' }).click()
    await shown(page)
    await page.getByRole('slider', { name: 'Shown at' }).fill('100')
    await page.getByRole('button', { name: 'Photograph to trace' }).click()
    const drag = async (dx: number) => {
      const [a, b] = await spotsOf(page, 2)
      const from = { x: (a!.x + b!.x) / 2, y: a!.y + 15 }
      await page.mouse.move(from.x, from.y)
      await page.mouse.down()
      await page.mouse.move(from.x + dx, from.y, { steps: 4 })
      await page.mouse.up()
    }
    await drag(60)
    await page.getByRole('button', { name: 'Undo: Fade the photograph' }).waitFor()
    await page.getByRole('checkbox', { name: 'Locked' }).click()
    await drag(60)
    await page.getByRole('button', { name: 'Undo: Move the photograph' }).waitFor()
    await page.keyboard.press('Control+z')
    expect(await page.getByRole('textbox', { name: 'Point 1, x' }).inputValue()).toBe('0')
    await page.getByRole('button', { name: 'Remove the photograph' }).click()
    expect(await page.locator('[data-photograph=shown]').count()).toBe(0)
    await page.keyboard.press('Control+z')
    await shown(page)
  })

  test('a JPEG on its side is stood upright; what is no picture is refused with a reason', async () => {
    const page = await bench.open()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('p')
    await choose(page, 'broken.png', dots(20, 20, []).subarray(0, 60))
    await dialog(page).getByRole('alert').filter({ hasText: 'longer than the file' }).waitFor()
    await choose(page, 'side.jpg', makeJpeg(320, 160, 6))
    await page.getByTestId('picture').waitFor()
    const box = (await page.getByTestId('picture').boundingBox())!
    expect(box.height / box.width).toBeCloseTo(2, 1)
  })

  test('one too large for a job is shrunk once that is agreed to', async () => {
    const page = await bench.open()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('p')
    // Noise does not pack: more than 4 MB.
    let seed = 1
    const noise = () => (seed = (seed * 48271) % 2147483647) & 255
    await choose(page, 'noise.png', makePng(1400, 1100, () => [noise(), noise(), noise()])) // prettier-ignore
    await dialog(page)
      .getByText(/1400 × 1100 pixels and 4\.\d MB; a job keeps at most 4\.0 MB/)
      .waitFor()
    expect(await page.getByTestId('picture').count()).toBe(0)
    await dialog(page).getByRole('button', { name: 'Shrink it to fit' }).click()
    await page.getByTestId('picture').waitFor()
  })
})
