/** The program's icon as SVG: the window's mark on a ground of its own. */
import { MARK } from '../src-renderer/components/mark.ts'

const SIDE = 1024
const [GROUND, INK, HEAVY] = ['#173a52', '#f4efe6', '#e8a33d']
const MARGIN = 64
/** Of the mark's square of 24. */
const SCALE = 30

export function iconSvg(): string {
  const { rim, slots, arm, heavy, others } = MARK
  const disc = ({ x, y, r }: { x: number; y: number; r: number }, fill: string) =>
    `    <circle cx="${x}" cy="${y}" r="${r}" fill="${fill}" />`
  const at = (SIDE - SCALE * MARK.size) / 2
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SIDE} ${SIDE}" width="${SIDE}" height="${SIDE}">`,
    `  <rect x="${MARGIN}" y="${MARGIN}" width="${SIDE - 2 * MARGIN}" height="${SIDE - 2 * MARGIN}" rx="200" fill="${GROUND}" />`,
    `  <g transform="translate(${at} ${at}) scale(${SCALE})" stroke-linecap="round">`,
    `    <circle cx="${rim.x}" cy="${rim.y}" r="${rim.r}" fill="none" stroke="${INK}" stroke-width="${rim.width}" />`,
    `    <path d="${slots.path}" fill="none" stroke="${INK}" stroke-width="${slots.width}" opacity="${slots.opacity}" />`,
    `    <path d="${arm.path}" fill="none" stroke="${INK}" stroke-width="${arm.width}" />`,
    disc(heavy, HEAVY),
    ...others.map((d) => disc(d, INK)),
    '  </g>',
    '</svg>',
    '',
  ].join('\n')
}
