/** The rail of speeds: every limit of the table ends its colours and stands over it by name. */
import { describe, expect, test } from 'vitest'
import { render } from '@testing-library/svelte'
import { finding, type Finding } from '../../src-core/findings/finding.ts'
import type { LimitId, SpeedLimits } from '../../src-core/verdict/limits.ts'
import SpeedRail from '../../src-renderer/components/SpeedRail.svelte'
import { place, ruleFor } from '../../src-renderer/components/speedScale.ts'

/** Each limit by the word that a machinist reads; a limit that is missing here does not compile. */
const WORDS: Record<LimitId, string> = {
  balance: 'balance',
  plate: 'plate rating',
  spindle: 'spindle',
  holding: 'holding',
}
const IDS = Object.keys(WORDS) as LimitId[]
const NONE: SpeedLimits = {
  balance: null,
  balanceBestEstimate: null,
  plate: null,
  spindle: null,
  holding: null,
  holdingBestEstimate: null,
}
/** A limit whose best estimate is no other. */
const limitAt = (id: LimitId, rpm: number): SpeedLimits => ({
  ...NONE,
  [id]: rpm,
  ...(id === 'balance' || id === 'holding' ? { [`${id}BestEstimate`]: rpm } : {}),
})
const WIDTH = 800
const rule = ruleFor([50, 1000])
const at = (rpm: number) => Math.round(place(rule, rpm) * WIDTH)

function rail(limits: SpeedLimits | null, findings: readonly Finding[] = []) {
  const { container } = render(SpeedRail, {
    rule,
    width: WIDTH,
    rpms: [50, 1000],
    chosen: null,
    limits,
    findings,
  })
  return {
    flags: [...container.querySelectorAll('.flag')].map((flag) => flag.textContent.trim()),
    /** State and ends in px, left to right, those off the rule's left end left out. */
    bands: [...container.querySelectorAll('[data-band]')].flatMap((rect) => {
      const [x, width] = ['x', 'width'].map((name) => Number(rect.getAttribute(name))) as [number, number]
      return width > 0 ? [[rect.getAttribute('data-band'), Math.round(x), Math.round(x + width)]] : []
    }),
  }
}

describe('each limit on the rail', () => {
  test.each(IDS)('%s alone ends the green and starts the red', (id) => {
    const { flags, bands } = rail(limitAt(id, 200))
    expect(flags).toEqual([`ceiling 200 rpm: ${WORDS[id]}`])
    expect(bands).toEqual([
      ['go', 0, at(200)],
      ['stop', at(200), WIDTH],
    ])
  })

  test.each(IDS)('%s above the ceiling has a flag of its own', (id) => {
    const lower = id === 'plate' ? 'spindle' : 'plate'
    const { flags, bands } = rail({ ...limitAt(id, 300), [lower]: 100 })
    expect(flags.sort()).toEqual([`ceiling 100 rpm: ${WORDS[lower]}`, `${WORDS[id]} 300`].sort())
    expect(bands[0]).toEqual(['go', 0, at(100)])
  })
})

describe('colours of the rail', () => {
  test.each(['balance', 'holding'] as const)('between the two estimates of %s it is a caution', (id) => {
    const { bands } = rail({ ...NONE, [id]: 200, [`${id}BestEstimate`]: 300 })
    expect(bands).toEqual([
      ['go', 0, at(200)],
      ['caution', at(200), at(300)],
      ['stop', at(300), WIDTH],
    ])
  })

  test('a finding that stops from a speed on starts the red there', () => {
    const stops = finding('stop', 'fouls-bed', 'part', 'It fouls.', null, 150)
    expect(rail(limitAt('plate', 400), [stops]).bands).toEqual([
      ['go', 0, at(150)],
      ['stop', at(150), WIDTH],
    ])
  })

  test('something that fouls leaves no green', () => {
    const { flags, bands } = rail(limitAt('plate', 400), [finding('stop', 'fouls-bed', 'part', 'It fouls.')])
    expect(flags).toContain('no speed: something fouls')
    expect(bands).toEqual([['stop', 0, WIDTH]])
  })

  test('nothing is coloured while nothing is known', () => {
    expect(rail(null)).toEqual({ flags: [], bands: [] })
  })
})
