/** Colours of the window: contrast by WCAG 2.2 (relative luminance), and a blue that no framework ships. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const css = readFileSync('src-renderer/styles/theme.css', 'utf8')
const block = (head: string) => css.slice(css.indexOf(head), css.indexOf('}', css.indexOf(head)))
const light = block(':root {')
const dark = block(":root[data-theme='dark'] {")
const read = (of: string, name: string) => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(of)![1]!

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = parseInt(hex.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
function contrast(a: string, b: string): number {
  const [l, d] = [luminance(a), luminance(b)].sort((p, q) => q - p) as [number, number]
  return (l + 0.05) / (d + 0.05)
}

describe.each([
  ['light', light],
  ['dark', dark],
])('%s', (_name, of) => {
  test('words of every colour stand out from every ground they stand on', () => {
    for (const ink of ['ink', 'muted', 'accent', 'go', 'caution', 'stop', 'unknown', 'note'])
      for (const ground of ['ground', 'panel', 'raised', 'sunken'])
        expect(contrast(read(of, ink), read(of, ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5)
    expect(contrast(read(of, 'on-accent'), read(of, 'accent'))).toBeGreaterThanOrEqual(4.5)
    expect(contrast(read(of, 'accent'), read(of, 'accent-soft'))).toBeGreaterThanOrEqual(4.5)
    expect(contrast(read(of, 'ink'), read(of, 'accent-soft'))).toBeGreaterThanOrEqual(4.5)
  })
})

test('contrast is that of WCAG: black on white 21, #777777 on white 4.48', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9)
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2)
})

/** Blues that many programs and frameworks start from. From memory. */
const COMMON = ['#0d6efd', '#0a58ca', '#2563eb', '#1d4ed8', '#3b82f6', '#1a73e8', '#0b57d0', '#0078d4', '#005fb8', '#007aff', '#0969da', '#1877f2', '#0052cc', '#0f62fe', '#1976d2', '#4f46e5', '#93c5fd', '#60a5fa'] // prettier-ignore
test('the main blue lies well apart from the common ones, in both schemes', () => {
  const rgb = (hex: string) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16))
  const apart = (a: string, b: string) => Math.hypot(...rgb(a).map((v, i) => v - rgb(b)[i]!))
  for (const of of [light, dark])
    for (const common of COMMON) expect(apart(read(of, 'accent'), common), common).toBeGreaterThan(24)
})
