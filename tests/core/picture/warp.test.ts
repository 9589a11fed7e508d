import { describe, expect, it } from 'vitest'
import { project } from '../../../src-core/picture/matrix.ts'
import { planMap, type Ties } from '../../../src-core/picture/planMap.ts'
import { pictureInPlan, sheetFor, warpPixels, type Pixels } from '../../../src-core/picture/warp.ts'

const tie = (u: number, v: number, x: number, y: number) => ({ u, v, x, y })
/** A table seen from the front: the far edge is half as wide as the near one. */
const TIES: Ties = [tie(20, 180, 0, 0), tie(220, 180, 100, 0), tie(170, 60, 100, 60), tie(70, 60, 0, 60)]
const made = planMap(TIES)
if (!made.ok) throw new Error(made.reason)
const { map } = made
const WIDTH = 240
const HEIGHT = 200

/** The picture of a plane with a chequer of 10 mm, coloured by where each pixel's middle lies in the plan. */
function photograph(): Pixels {
  const data = new Uint8ClampedArray(4 * WIDTH * HEIGHT)
  for (let v = 0; v < HEIGHT; v++)
    for (let u = 0; u < WIDTH; u++) {
      const p = project(map.toPlan, { x: u + 0.5, y: v + 0.5 })
      const dark = (Math.floor(p.x / 10) + Math.floor(p.y / 10)) % 2 === 0
      data.set([dark ? 20 : 230, 0, 0, 255], 4 * (v * WIDTH + u))
    }
  return { width: WIDTH, height: HEIGHT, data }
}

describe('squaring up', () => {
  it('gives the plan back: the chequer is square again where the picture was fine enough', () => {
    const sheet = sheetFor(map, WIDTH, HEIGHT, 2000)!
    const out = warpPixels(photograph(), map, sheet)
    const red = (x: number, y: number) => {
      const column = Math.floor((x - sheet.corner.x) * sheet.pxPerMm)
      const row = Math.floor((sheet.corner.y - y) * sheet.pxPerMm)
      return out.data[4 * (row * sheet.width + column)]!
    }
    for (let x = 5; x < 100; x += 10)
      for (let y = 5; y < 60; y += 10) {
        const dark = (Math.floor(x / 10) + Math.floor(y / 10)) % 2 === 0
        expect(red(x, y) < 128, `${x}, ${y}`).toBe(dark)
      }
  })

  it('is clear beyond the picture and keeps within the size asked for', () => {
    const sheet = sheetFor(map, WIDTH, HEIGHT, 64)!
    expect(Math.max(sheet.width, sheet.height)).toBe(64)
    const out = warpPixels(photograph(), map, sheet)
    // The lower corners lie outside the wedge that the picture shows.
    expect(out.data[4 * (sheet.height - 1) * sheet.width + 3]).toBe(0)
    expect(out.data.some((v, i) => i % 4 === 3 && v === 255)).toBe(true)
  })

  it('is cut off short of the horizon, where a plane would have no end', () => {
    const whole = pictureInPlan(map, WIDTH, HEIGHT)
    const high = pictureInPlan(map, WIDTH, 200)
    expect(high).toEqual(whole)
    // The sides meet at v = -60; a picture with rows up to there would run to infinity.
    const up: Ties = [tie(20, 380, 0, 0), tie(220, 380, 100, 0), tie(170, 260, 100, 60), tie(70, 260, 0, 60)]
    const far = planMap(up)
    if (!far.ok) throw new Error(far.reason)
    for (const p of pictureInPlan(far.map, WIDTH, 400)) expect(Math.hypot(p.x, p.y)).toBeLessThan(1000)
  })

  it('has no sheet for what shows none of the plane', () => {
    const up: Ties = [
      tie(20, -380, 0, 0),
      tie(220, -380, 100, 0),
      tie(170, -500, 100, 60),
      tie(70, -500, 0, 60),
    ]
    const away = planMap(up)
    if (!away.ok) throw new Error(away.reason)
    expect(pictureInPlan(away.map, 240, 200).length).toBeGreaterThan(2)
    const down: Ties = [
      tie(20, 580, 0, 0),
      tie(220, 580, 100, 0),
      tie(170, 460, 100, 60),
      tie(70, 460, 0, 60),
    ]
    const below = planMap(down)
    if (!below.ok) throw new Error(below.reason)
    expect(sheetFor(below.map, 240, 200, 500)).toBeNull()
  })
})
