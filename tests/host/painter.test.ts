/** Pictures are painted outside the host: whatever happens to the painter, the host lives and says so. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { createPainter, type PainterProcess } from '../../src-main/png/painter.ts'
import { writePng } from '../../src-main/png/writePng.ts'
import { startPainter } from '../../src-main/start/painterProcess.ts'
import { SAMPLE } from '../helpers/sampleDrawing.ts'
import { ROOT, scratchFolder } from './helpers.ts'

/** A painter's program of a test's own. */
function program(text: string): string {
  const path = join(scratchFolder(), 'program.mjs')
  writeFileSync(path, text)
  return path
}
const painterOf = (text: string, patience?: number) => {
  const path = program(text)
  return createPainter(() => startPainter(path), patience)
}

test('a picture comes whole out of another process, the same as this one paints', async () => {
  const png = await createPainter(startPainter)(writeSvg(SAMPLE))
  expect(Buffer.from(png).equals(Buffer.from(writePng(SAMPLE)))).toBe(true)
})

test('what is no sheet is refused with its line', async () => {
  await expect(createPainter(startPainter)(writeSvg(SAMPLE).replace('<path', '<use'))).rejects.toMatchObject({
    code: 'request.refused',
    message: expect.stringMatching(/^The picture was not made: .*line \d+: this is nothing that stands/),
  })
})

test('nested spans that end the machine code with its process take the painter and not the host', async () => {
  const paint = painterOf(`
    import { createRequire } from 'node:module'
    const { Resvg } = createRequire(${JSON.stringify(join(ROOT, 'package.json'))})('@resvg/resvg-js')
    process.on('message', (svg) => process.send({ png: new Resvg(svg).render().asPng() }))
  `)
  const nested = (n: number) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text>${'<tspan>'.repeat(n)}x${'</tspan>'.repeat(n)}</text></svg>`
  expect((await paint(nested(1))).length).toBeGreaterThan(50)
  const fault = { code: 'request.failed', message: 'The picture was not made: the painter stopped' }
  await expect(paint(nested(5000))).rejects.toMatchObject(fault)
  // The next one has a painter of its own.
  expect((await paint(nested(1))).length).toBeGreaterThan(50)
})

test('a painter that does not end is ended', async () => {
  const paint = painterOf(`process.on('message', () => { for (;;); })`, 300)
  await expect(paint('x')).rejects.toMatchObject({ message: expect.stringMatching(/too long/) })
})

test('one picture is painted at a time, and each process is ended', async () => {
  let living = 0
  let most = 0
  const start = (): PainterProcess => {
    most = Math.max(most, ++living)
    const painter: PainterProcess = {
      paint: (svg) => void setImmediate(() => painter.onanswer({ png: Buffer.from(svg) })),
      onanswer: () => undefined,
      onend: () => undefined,
      kill: () => void living--,
    }
    return painter
  }
  const paint = createPainter(start)
  const pictures = await Promise.all(['a', 'b', 'c'].map(paint))
  expect(pictures.map(String)).toEqual(['a', 'b', 'c'])
  expect([living, most]).toEqual([0, 1])
})
