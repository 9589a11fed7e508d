import { readFileSync } from 'node:fs'
import { render } from '@testing-library/svelte'
import { expect, test } from 'vitest'
import Mark from '../../src-renderer/components/Mark.svelte'
import { iconSvg } from '../../scripts/iconSvg.ts'

const circles = (root: ParentNode) =>
  [...root.querySelectorAll('circle')].map((c) => ['cx', 'cy', 'r'].map((a) => c.getAttribute(a)).join(' '))
const paths = (root: ParentNode) => [...root.querySelectorAll('path')].map((p) => p.getAttribute('d'))

test('the mark in the window is that of the icon, shape by shape, its heavy disc filled in both', () => {
  const { container } = render(Mark)
  const icon = new DOMParser().parseFromString(iconSvg(), 'image/svg+xml')
  expect(circles(container)).toHaveLength(4)
  expect(circles(container)).toEqual(circles(icon))
  expect(paths(container)).toEqual(paths(icon))
  const [heavy] = [...icon.querySelectorAll('circle')].filter((c) => c.getAttribute('r') === '2.6')
  expect(heavy?.getAttribute('fill')).toBe('#e8a33d')
  expect(container.querySelector('.heavy')?.getAttribute('fill')).toBeNull()
})

test('the icon on disk is the one that is drawn', () => {
  expect(readFileSync('build/icon.svg', 'utf8'), 'run "npm run icon"').toBe(iconSvg())
})
