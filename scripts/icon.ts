// Writes build/icon.svg and paints build/icon.png from it: npm run icon.
import { writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import { iconSvg } from './iconSvg.ts'

const build = new URL('../build/', import.meta.url)
const svg = iconSvg()
writeFileSync(new URL('icon.svg', build), svg)
const picture = new Resvg(svg, { fitTo: { mode: 'width', value: 1024 }, font: { loadSystemFonts: false } })
writeFileSync(new URL('icon.png', build), picture.render().asPng())
