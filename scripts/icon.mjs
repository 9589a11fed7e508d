// Paints build/icon.png from build/icon.svg: npm run icon.
import { readFileSync, writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'

const build = new URL('../build/', import.meta.url)
const picture = new Resvg(readFileSync(new URL('icon.svg', build), 'utf8'), {
  fitTo: { mode: 'width', value: 1024 },
  font: { loadSystemFonts: false },
})
writeFileSync(new URL('icon.png', build), picture.render().asPng())
