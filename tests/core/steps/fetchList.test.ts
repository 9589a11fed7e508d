import { expect, it } from 'vitest'
import { fetchList } from '../../../src-core/steps/fetchList.ts'
import { exampleJob } from '../../helpers/jobs.ts'

const link = exampleJob('flat-link')

it('counts what reads the same once, and names bolts with class and torque', () => {
  const list = fetchList(link, 'op10')
  const clamps = list.filter((i) => i.group === 'clamps')
  expect(clamps.reduce((sum, i) => sum + i.count, 0)).toBe(4)
  const bolts = list.filter((i) => i.group === 'bolts')
  expect(bolts.reduce((sum, i) => sum + i.count, 0)).toBe(4)
  expect(bolts[0]!.words).toMatch(/^M12 8\.8 bolt or stud .*tightened to 45 N·m$/)
  expect(list.some((i) => i.group === 'tools' && i.words.includes('42 mm finish'))).toBe(true)
  expect(new Set(list.map((i) => i.id)).size).toBe(list.length)
})

it('covers every piece of every setup', () => {
  for (const setup of link.setups) {
    const pieces = fetchList(link, setup.id).filter((i) =>
      ['clamps', 'packing', 'weights', 'other'].includes(i.group),
    )
    const loose = pieces.filter((i) => i.id !== 'packing-height')
    expect(loose.reduce((sum, i) => sum + i.count, 0)).toBe(setup.hardware.length)
  }
})

it('speaks inches in an inch job, and refuses an unknown setup', () => {
  const words = fetchList({ ...link, displayUnits: 'in' }, 'op10').map((i) => i.words)
  expect(words.some((w) => w.includes(' in'))).toBe(true)
  // Names are the user's own words and stay.
  expect(words.some((w) => /\d mm( ×|,| diameter| above)/.test(w.replace(/^[^,]*,/, '')))).toBe(false)
  expect(() => fetchList(link, 'nowhere')).toThrow(RangeError)
})
