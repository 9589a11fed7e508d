import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { checkJob } from '../../src-core/job/parse.ts'
import { LIMITS, type Photograph } from '../../src-core/job/schema.ts'
import { turnTies } from '../../src-core/picture/moving.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { setPhotograph, setTies } from '../../src-renderer/editor/edits/photograph.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import type { PicturePort } from '../../src-renderer/state/pictureWork.ts'
import type { PictureReply, PictureRequest } from '../../src-renderer/workers/pictureMessages.ts'
import { makeJpeg, makePng } from '../helpers/pictures.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

let app: App
let asked: PictureRequest[]
let answer: (reply: PictureReply) => void
let fail: () => void
beforeEach(() => {
  asked = []
  const pictures = (): PicturePort => ({
    postMessage: (request) => void asked.push(structuredClone(request)),
    addEventListener: (type: string, listener: (event: never) => void) => {
      if (type === 'message')
        answer = (data) => (listener as (e: MessageEvent<PictureReply>) => void)({ data } as MessageEvent)
      else fail = () => (listener as (e: ErrorEvent) => void)({ message: '' } as ErrorEvent)
    },
  })
  app = createApp(fetchHost, { ...noWorkers, pictures })
  app.jobs.load(exampleJob(), null)
  app.session.setupId = 'op10'
})
afterEach(() => app.desk.close())
const file = (bytes: Uint8Array<ArrayBuffer>, name = 'p.png') => new File([bytes], name)
const png = (w = 300, h = 200) => new Uint8Array(makePng(w, h))
const kept = () => app.jobs.job.part.photograph

describe('placing a photograph', () => {
  test('says what is lacking, one thing after another, and places by two points', async () => {
    const { desk } = app
    await desk.take(file(png()))
    expect(desk.lack).toMatch(/^Click point 1/)
    expect(desk.place()).toBe(false)
    desk.mark(0, { u: 50, v: 150 })
    desk.advance()
    expect(desk.active).toBe(1)
    desk.mark(1, { u: 250, v: 150 })
    expect(desk.lack).toMatch(/Type the distance/)
    desk.distance = 100
    desk.at = { x: -20, y: 5 }
    expect(desk.lack).toBeNull()
    expect(desk.place()).toBe(true)
    expect(kept()!.ties).toEqual([
      { u: 50, v: 150, x: -20, y: 5 },
      { u: 250, v: 150, x: 80, y: 5 },
    ])
    expect(app.jobs.undoLabel).toBe('Add a photograph')
    const read = checkJob(app.jobs.job)
    expect(read.ok ? [] : read.faults).toEqual([])
    app.jobs.undo()
    expect(kept() ?? null).toBeNull()
  })

  test('a line that slopes in the picture slopes so on the part, unless it is laid along an axis', async () => {
    const { desk } = app
    await desk.take(file(png()))
    desk.mark(0, { u: 0, v: 100 })
    desk.mark(1, { u: 100, v: 0 })
    desk.distance = 10
    expect(desk.ties![1].x).toBeCloseTo(Math.SQRT1_2 * 10, 8)
    expect(desk.ties![1].y).toBeCloseTo(Math.SQRT1_2 * 10, 8)
    desk.along = 'y'
    expect(desk.ties![1]).toMatchObject({ x: 0, y: 10 })
  })

  test('corners the wrong way round are named', async () => {
    const { desk } = app
    await desk.take(file(png()))
    desk.use('rectangle')
    ;[[10, 10], [200, 10], [200, 150], [10, 150]].forEach(([u, v], i) => desk.mark(i, { u: u!, v: v! })) // prettier-ignore
    desk.width = 80
    desk.height = 50
    expect(desk.lack).toMatch(/mirror/)
    ;[[10, 150], [200, 150], [200, 10], [10, 10]].forEach(([u, v], i) => desk.mark(i, { u: u!, v: v! })) // prettier-ignore
    expect(desk.lack).toBeNull()
    expect(desk.ties![2]).toEqual({ u: 200, v: 10, x: 80, y: 50 })
    desk.place()
    desk.close()
    app.jobs.edit('Turn', (j) => setTies(j, turnTies(kept()!.ties, { x: 3, y: 4 }, -20)))
    desk.open()
    desk.ties!.forEach((t, i) => {
      expect(t.x).toBeCloseTo(kept()!.ties[i]!.x, 7)
      expect(t.y).toBeCloseTo(kept()!.ties[i]!.y, 7)
    })
  })

  test('marks stay within the picture', async () => {
    await app.desk.take(file(png()))
    app.desk.mark(0, { u: -5, v: 999 })
    expect(app.desk.marks[0]).toEqual({ u: 0, v: 200 })
  })

  test('the photograph of the job is taken up again with its points', async () => {
    const { desk } = app
    await desk.take(file(png()))
    desk.mark(0, { u: 50, v: 150 })
    desk.mark(1, { u: 250, v: 150 })
    desk.distance = 100
    desk.place()
    desk.close()
    desk.distance = null
    desk.open()
    expect(desk.marks[1]).toEqual({ u: 250, v: 150 })
    expect(desk.distance).toBe(100)
    // Turned meanwhile: it stays turned until something else is said.
    desk.close()
    app.jobs.edit('Turn', (j) => setTies(j, turnTies(kept()!.ties, { x: 0, y: 0 }, 30)))
    const before = kept()!.ties
    desk.open()
    expect(desk.ties![1].x).toBeCloseTo(before[1].x, 7)
    expect(desk.ties![1].y).toBeCloseTo(before[1].y, 7)
    desk.along = 'x'
    expect(desk.ties![1].y).toBe(before[0].y)
    expect(desk.place()).toBe(true)
    expect(app.jobs.undoLabel).toBe('Place the photograph anew')
  })
})

describe('a picture that cannot be taken as it is', () => {
  test('is refused with a reason and a byte', async () => {
    await app.desk.take(file(png().slice(0, 40)))
    expect(app.desk.fault).toMatch(/not taken: .*\(byte \d+\)/)
    expect(app.desk.picture).toBeNull()
  })
  test('is offered to be shrunk where it is too large, and taken once it was', async () => {
    const { desk } = app
    const large = new Uint8Array(LIMITS.pictureBytes + 1000)
    const small = png(30, 20)
    // A whole picture with bytes behind it.
    const jpeg = makeJpeg(64, 48)
    large.set(jpeg)
    await desk.take(file(large, 'large.jpg'))
    expect(desk.offer?.text).toMatch(/^large.jpg has 64 × 48 pixels and 4.0 MB/)
    expect(asked).toEqual([])
    const done = desk.shrink()
    expect(asked[0]).toMatchObject({ kind: 'shrink', limit: LIMITS.pictureBytes })
    answer({ kind: 'shrink', id: asked[0]!.id, result: { ok: true, bytes: small, width: 30, height: 20 } })
    await done
    expect(desk.picture).toMatchObject({ type: 'image/jpeg', width: 30, height: 20 })
  })
  test('on its side is stood upright without asking; where that fails it says so', async () => {
    const { desk } = app
    const taking = desk.take(file(new Uint8Array(makeJpeg(32, 16, 6)), 'side.jpg'))
    await expect.poll(() => asked.length).toBe(1)
    fail()
    await taking
    expect(desk.fault).toMatch(/could not be started/)
    expect(desk.picture).toBeNull()
  })
})

describe('the photograph shown', () => {
  const base = (): Photograph => ({
    picture: {
      name: '',
      type: 'image/png',
      width: 300,
      height: 200,
      data: makePng(300, 200).toString('base64'),
    },
    ties: [
      { u: 0, v: 200, x: 0, y: 0 },
      { u: 300, v: 200, x: 30, y: 0 },
      { u: 300, v: 0, x: 30, y: 20 },
      { u: 0, v: 0, x: 0, y: 20 },
    ],
    opacity: 1,
    locked: false,
  })
  const image = { width: 60, height: 40 } as ImageBitmap
  const sheet = { width: 60, height: 40, corner: { x: 0, y: 20 }, pxPerMm: 2 }

  test('is squared up once, and only moved with its ties after that', async () => {
    const { photograph: shown } = app
    const p = base()
    shown.want(p)
    expect(shown.place(p)).toBeNull()
    answer({ kind: 'show', id: asked[0]!.id, result: { ok: true, image, scale: 1, sheet } })
    await expect.poll(() => shown.place(p)).not.toBeNull()
    expect(shown.place(p)!.toPlan).toEqual({ a: 0.5, b: 0, c: 0, d: -0.5, e: 0, f: 20 })
    const moved = { ...p, ties: p.ties.map((t) => ({ ...t, x: t.x + 7 })) as unknown as Photograph['ties'] }
    shown.want(moved)
    expect(asked).toHaveLength(1)
    expect(shown.place(moved)!.toPlan.e).toBeCloseTo(7, 9)
    // Another shape of the rectangle has to be squared up anew.
    const wider = { ...p, ties: p.ties.map((t) => ({ ...t, x: t.x * 2 })) as unknown as Photograph['ties'] }
    shown.want(wider)
    expect(asked).toHaveLength(2)
    expect(shown.place(wider)).toBeNull()
  })

  test('of two ties is laid by them, whatever size it was unpacked at', async () => {
    const { photograph: shown } = app
    const p: Photograph = { ...base(), ties: [{ u: 0, v: 200, x: 5, y: 0 }, { u: 300, v: 200, x: 35, y: 0 }] } // prettier-ignore
    shown.want(p)
    expect(asked[0]).toMatchObject({ kind: 'show', ties: null })
    answer({ kind: 'show', id: asked[0]!.id, result: { ok: true, image, scale: 5, sheet: null } })
    await expect.poll(() => shown.place(p)).not.toBeNull()
    const { a, d, e, f } = shown.place(p)!.toPlan
    for (const [is, should] of [[a, 0.5], [d, -0.5], [e, 5], [f, 20]]) expect(is).toBeCloseTo(should!, 9) // prettier-ignore
  })

  test('that cannot be unpacked says why, and is not asked for again at every edit', async () => {
    const { photograph: shown } = app
    const p = base()
    shown.want(p)
    answer({ kind: 'show', id: asked[0]!.id, result: { ok: false, reason: 'it is spoilt' } })
    await expect.poll(() => shown.fault).toBe('it is spoilt')
    shown.want({ ...p, opacity: 0.5 })
    expect(asked).toHaveLength(1)
    shown.want(null)
    expect(shown.fault).toBeNull()
  })

  test('goes when the job has none', async () => {
    const { photograph: shown, jobs } = app
    const p = base()
    jobs.edit('Add', (j) => setPhotograph(j, p))
    shown.want(p)
    answer({ kind: 'show', id: asked[0]!.id, result: { ok: true, image, scale: 1, sheet } })
    await expect.poll(() => shown.place(p)).not.toBeNull()
    shown.want(null)
    expect(shown.place(p)).toBeNull()
  })
})
