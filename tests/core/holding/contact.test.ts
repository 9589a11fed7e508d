/** Each check of contact, support, reach and fit both ways, by hand on one block under two straps. */
import { describe, expect, test } from 'vitest'
import type { Clamp, Hardware, Part, Strap } from '../../../src-core/job/schema.ts'
import { boreCut, block, bore, disc, partOf, piece } from '../../helpers/jobs.ts'
import { look, plainPart, strapClamp, type Clamped } from '../../helpers/clamped.ts'

const found = (clamped: Clamped) => look(clamped).found
const strap = (more: Partial<Strap>): Partial<Clamp> => ({ strap: { ...strapClamp().strap, ...more } })
const stud = (length: number, thread = 'M12'): Partial<Clamp> => ({ stud: { thread, class: '8.8', length } })

const withBody = (...more: Part['bodies']): Part =>
  partOf([block('body', { x: 0, y: 0 }, [120, 80, 20]), ...more])

describe('the toe, whose pad reaches from 45 to 53', () => {
  const at = (radius: number) => ({ clamp: { at: { slot: 'S1', radius } } })
  test('flush with the edge at 60 it lies on; 1 mm over it does not', () => {
    // Its pad then reaches from 52 to 60; the strap's packing goes with it.
    expect(found(at(92))).not.toContain('stop toe-off c1')
    expect(found(at(93))).toContain('stop toe-off c1')
    expect(look(at(93)).message('toe-off')).toContain('1 mm short of')
  })
  test('beside the part: how far it is short, and both cures', () => {
    // At 112 its end is at 72, 12 mm off the edge: 20 till all of its pad of 8 lies on.
    const { message, c1 } = look(at(112))
    expect(message('toe-off')).toMatch(
      /^Strap c1 does not reach the part: 20 mm short\. Slide it 20 mm in, or use a longer strap\./,
    )
    expect(c1).toMatchObject({ state: 'nothing', low: 0, high: 0 })
  })
  test('over a pocket as wide as the strap it says what lies there and where solid material is', () => {
    const part = withBody(block('pit', { x: 50, y: 0 }, [12, 80, 5], { base: 15, effect: 'removes' }))
    // The floor of the pit lies 15 high and carries all of the toe: a lower place, but solid.
    expect(found({ part })).not.toContain('stop toe-off c1')
    const half = withBody(block('pit', { x: 44, y: 0 }, [12, 80, 5], { base: 15, effect: 'removes' }))
    expect(look({ part: half }).message('toe-off')).toContain('pocket pit')
    expect(look({ part: half }).message('toe-off')).toContain('beyond solid material')
  })
  test('over a hole of the body', () => {
    const hole = disc('x', { x: 49, y: 10 }, 8, 20).outline
    const part = partOf([block('body', { x: 0, y: 0 }, [120, 80, 20], { holes: [hole] })])
    expect(look({ part }).message('toe-off')).toContain('a hole of body')
  })
  test('over a bore of an earlier setup, over the one that this setup cuts, not over one of a later', () => {
    const part = partOf([block('body', { x: 0, y: 0 }, [120, 80, 20])], [bore('A', { x: 0, y: 0 }, 96)])
    expect(look({ part, setup: { cuts: [boreCut('A')] } }).message('toe-off')).toContain(
      'bore A, which this setup cuts',
    )
    expect(found({ part })).not.toContain('stop toe-off c1')
  })
  test('a lower face beside it: half on is off', () => {
    const part = partOf([
      block('body', { x: 0, y: 0 }, [120, 80, 20]),
      block('boss', { x: 0, y: 0 }, [98, 80, 10], { base: 20 }),
    ])
    expect(look({ part }).message('toe-off')).toContain('a lower face of the part')
  })
  test('a part drawn thinner lowers the strap and its heel to suit', () => {
    const { c1, found: all } = look({ part: plainPart(8) })
    expect(c1.piece.z0).toBe(20)
    expect(all).toEqual([])
  })
})

describe('support straight under the toe', () => {
  test('packing 20 mm further in: a caution with the distance; tightened hard on a thin part it bends it', () => {
    const packed: Hardware = piece(
      'k',
      0.1,
      { x: 10, y: 0 },
      { kind: 'packing', footprint: { rect: [30, 40] }, height: 12 },
    )
    const setup = { clamp: { packing: null, torque: 5 }, hardware: [packed] }
    // Its pad begins at 45, the packing ends at 25.
    expect(found(setup)).toContain('caution toe-unsupported c1')
    expect(look(setup).message('toe-unsupported')).toContain('20 mm away')
    const hard = { ...setup, clamp: { packing: null, torque: 20 }, part: plainPart(8) }
    expect(found(hard)).toContain('stop toe-bends-part c1')
    expect(found({ ...hard, clamp: { torque: 20 } })).not.toContain('stop toe-bends-part c1')
  })
  test('bending: arm of 20 to the packing and 4 to the middle of the toe, 64 wide, 8 thick, 60 N/mm² at 5.61 N·m', () => {
    // 6·F·24 / (64·8²) of F = 1.25·T/(0.2·12 mm)·45/77.
    const packed = piece(
      'k',
      0.1,
      { x: 10, y: 0 },
      { kind: 'packing', footprint: { rect: [30, 40] }, height: 12 },
    )
    const at = (torque: number) =>
      found({ clamp: { packing: null, torque }, hardware: [packed], part: plainPart(8) })
    expect(at(5.55)).not.toContain('stop toe-bends-part c1')
    expect(at(5.65)).toContain('stop toe-bends-part c1')
  })
  test('a part that lies on the plate is carried by it, but not over a slot that is wider than its foot', () => {
    const flat = { setup: { packing: 0 }, clamp: { packing: null } }
    expect(found(flat)).toEqual([])
  })
})

describe('packing', () => {
  const packed = (more: Partial<Parameters<typeof piece>[3]>, at = { x: 0, y: 25 }): Hardware =>
    piece('k', 0.1, at, { kind: 'packing', footprint: { rect: [30, 20] }, height: 12, ...more })
  const has = (hardware: Hardware) => found({ hardware: [hardware] }).filter((f) => f.endsWith(' k'))
  test('under the part, on the plate, as high as the seat: nothing to say', () => {
    expect(has(packed({}))).toEqual([])
  })
  test('lower than the seat, or beside the part, it carries nothing', () => {
    expect(has(packed({ height: 11.9 }))).toEqual(['stop packing-idle k'])
    expect(has(packed({ height: 11.96 }))).toEqual([])
    expect(has(packed({}, { x: 0, y: 60 }))).toEqual(['stop packing-idle k'])
  })
  test('in the air, over the bore of the plate, over its rim', () => {
    expect(has(packed({ base: 2, height: 10 }))).toEqual(['stop packing-not-carried k'])
    expect(has(packed({ footprint: { circle: 30 } }, { x: 0, y: 0 }))).toEqual(['stop packing-not-carried k'])
    expect(has(packed({}, { x: 0, y: 149 }))).toEqual(['stop packing-not-carried k'])
  })
  test('a pad of 12 in the mouth of a slot of 14 stands on nothing; one of 30 bridges it', () => {
    // Slot 2 runs up the y axis from 55.
    const part = partOf([block('body', { x: 0, y: 0 }, [120, 200, 20])])
    const on = (width: number) =>
      found({ part, hardware: [packed({ footprint: { rect: [12, width] }, facing: 90 }, { x: 0, y: 80 })] })
    expect(on(12)).toContain('stop packing-not-carried k')
    expect(on(30)).not.toContain('stop packing-not-carried k')
  })
  test('under what this setup bores away it carries nothing', () => {
    const part = partOf([block('body', { x: 0, y: 0 }, [120, 80, 20])], [bore('A', { x: 0, y: 0 }, 70)])
    const hardware = [packed({ footprint: { circle: 10 } })]
    expect(found({ part, hardware })).toEqual([])
    expect(found({ part, hardware, setup: { cuts: [boreCut('A')] } })).toEqual(['stop packing-idle k'])
  })
  test('a pile stands on what it needs', () => {
    const low = piece(
      'l',
      0.1,
      { x: 0, y: 25 },
      { kind: 'packing', footprint: { rect: [30, 20] }, height: 6 },
    )
    const high = packed({ base: 6, height: 6 })
    expect(found({ hardware: [low, high] })).toEqual([])
    expect(found({ hardware: [high] })).toEqual(['stop packing-not-carried k'])
    const beside = piece(
      'l',
      0.1,
      { x: 20, y: 25 },
      { kind: 'packing', footprint: { rect: [30, 20] }, height: 6 },
    )
    expect(found({ hardware: [beside, high] })).toContain('stop packing-not-carried k')
  })
  test('packing that is said and not there', () => {
    const none = { clamp: { packing: null }, setup: { packing: 12 } }
    const { found: all } = look({ ...none, hardware: [] })
    // The other clamp's packing is there still.
    expect(all).not.toContain('stop part-not-carried setup')
    expect(
      found({
        setup: { packing: 12 },
        part: partOf([block('body', { x: 0, y: 0 }, [120, 80, 20], { base: 3 })]),
      }),
    ).toContain('stop part-not-carried setup')
  })
})

describe('heel and strap', () => {
  const heel = (more: object): Partial<Clamp> => ({
    heel: { kind: 'block', size: [30, 40], height: 'suit', ...more },
  })
  test('a jack of 12 in the mouth of a slot stands on nothing; of 30 it bridges it', () => {
    expect(found({ clamp: heel({ size: [12, 12], from: 40 }) })).toContain('stop heel-not-carried c1')
    expect(found({ clamp: heel({ size: [30, 30] }) })).toEqual([])
  })
  test('beyond the strap, and in the way of the stud', () => {
    expect(found({ clamp: heel({ from: 62 }) })).toContain('stop heel-beyond-strap c1')
    expect(found({ clamp: heel({ from: 20 }) })).toContain('stop heel-at-bolt c1')
  })
  test('bolt as near to the heel as to the work', () => {
    expect(found({ clamp: heel({ from: 40 }) })).toEqual(['caution bolt-near-heel c1'])
    expect(found({ clamp: heel({ from: 40.5 }) })).toEqual([])
  })
  test('level: 3° and 8° over a span of 85 are 4.45 and 11.95 mm', () => {
    const level = (height: number) => found({ clamp: heel({ height }) })
    expect(level(32 + 4.4)).toEqual([])
    expect(level(32 + 4.5)).toEqual(['caution strap-not-level c1'])
    expect(level(32 - 4.5)).toEqual(['caution strap-not-level c1'])
    expect(level(32 + 11.9)).toEqual(['caution strap-not-level c1'])
    expect(level(32 + 12)).toContain('stop strap-not-level c1')
    expect(look({ clamp: heel({ height: 52 }) }).c1.state).toBe('nothing')
  })
  test('bending: 26 · 20² / 6 mm³ of mild steel at 225 N/mm² carry 9750 N at 40 mm', () => {
    // 45/85 of 1.25·T/(0.2·12 mm) is that at 35.36 N·m.
    expect(found({ clamp: { torque: 35.3 } })).toEqual([])
    expect(found({ clamp: { torque: 35.4 } })).toEqual(['stop strap-yields c1'])
    expect(look({ clamp: { torque: 70 } }).message('strap-yields')).toContain('Tighten to 35.3 N·m or less')
    // What it cannot carry is not credited; the low side of 70 would be 11.6 kN.
    expect(look({ clamp: { torque: 70 } }).c1.low).toBeCloseTo(9750, 9)
    expect(found({ clamp: { ...strap({ steel: '42CrMo4+QT' }), torque: 70 } })).toEqual([])
  })
})

describe('the stud', () => {
  // From behind: 28 plate, 2.5 washer … worked out by the mounting; M12 has a pitch of 1.75.
  const needed = look().c1.piece.fastenings[0]!.needed
  test('too short, hardly out, as it should be, too far out', () => {
    expect(found({ clamp: stud(needed - 3.6) })).toEqual(['stop stud-short c1'])
    expect(found({ clamp: stud(needed - 3.4) })).toEqual(['caution stud-flush c1'])
    expect(found({ clamp: stud(needed) })).toEqual([])
    expect(found({ clamp: stud(needed + 14.4) })).toEqual([])
    expect(found({ clamp: stud(needed + 14.6) })).toEqual(['caution stud-stands-out c1'])
  })
  test('its length runs through packing, part and strap', () => {
    const by = (c: Clamped) => look(c).c1.piece.fastenings[0]!.needed - needed
    expect(by({ part: plainPart(30) })).toBeCloseTo(10, 9)
    expect(by({ clamp: strap({ thickness: 25 }) })).toBeCloseTo(5, 9)
    expect(found({ clamp: stud(needed), part: plainPart(30) })).toContain('stop stud-short c1')
  })
  test('M20 in a slot of 14, M10 in the same', () => {
    const wide = { ...strap({ opening: 22 }), torque: 20 }
    expect(found({ clamp: { ...wide, stud: { thread: 'M20', class: '8.8', length: 'suit' } } })).toContain(
      'stop stud-does-not-fit c1',
    )
    expect(found({ clamp: { stud: { thread: 'M10', class: '8.8', length: 'suit' } } })).toEqual([
      'caution stud-loose c1',
    ])
  })
  test('through a strap with a smaller hole, and a washer that falls through it', () => {
    expect(found({ clamp: strap({ opening: 11 }) })).toContain('stop stud-does-not-fit c1')
    expect(found({ clamp: { ...strap({ opening: 25 }), torque: 5 } })).toContain('stop washer-too-small c1')
    expect(found({ clamp: { washer: { diameter: 13, thickness: 2 } } })).toContain('stop washer-too-small c1')
  })
  test('a tapped hole wants its own thread', () => {
    const plate = (thread: string) => ({
      holes: [{ id: 'H9', x: 85, y: 0, diameter: 10.2, thread }],
      slots: [{ id: 'S3', angle: 180, from: 55, to: 135, width: 14, kind: 'through' as const }],
    })
    const hole = { clamp: { at: { hole: 'H9' } } }
    expect(found({ ...hole, plate: plate('M12') }).filter((f) => f.endsWith('c1'))).toEqual([])
    expect(found({ ...hole, plate: plate('M10') })).toContain('stop stud-does-not-fit c1')
  })
  test('through solid plate, off the middle of a slot, and beyond its ends', () => {
    const at = (x: number, y: number) => found({ clamp: { at: { x, y } } }).filter((f) => !f.includes('toe'))
    expect(at(85, 0)).toEqual([])
    expect(at(85, 0.9)).toEqual([])
    expect(at(85, 1.2)).toContain('stop stud-does-not-fit c1')
    expect(at(85, 20)).toContain('stop bolt-in-solid c1')
    expect(at(145, 0)).toContain('stop bolt-in-solid c1')
  })
  test('a weight through solid plate; one over a slot', () => {
    expect(found({ hardware: [piece('w', 1, { x: 80, y: 80 })] })).toContain('stop bolt-in-solid w')
    expect(found({ hardware: [piece('w', 1, { x: 0, y: 100 })] })).toEqual([])
  })
  test('proof load of M12 8.8 is 48.9 kN: the mean at 117.36 N·m, the high side at 93.9', () => {
    const strong = { ...strap({ thickness: 60, steel: '42CrMo4+QT' }) }
    expect(found({ clamp: { ...strong, torque: 93.8 } })).toEqual([])
    expect(found({ clamp: { ...strong, torque: 94 } })).toEqual(['caution over-proof-load c1'])
    expect(found({ clamp: { ...strong, torque: 117 } })).toEqual(['caution over-proof-load c1'])
    expect(found({ clamp: { ...strong, torque: 118 } })).toEqual(['stop over-proof-load c1'])
  })
})

describe('one bolt, one hole', () => {
  test('two bolts in one hole, two in each other', () => {
    const twice = [piece('v', 1, { hole: 'H1' }), piece('w', 1, { hole: 'H1' })]
    expect(found({ hardware: twice })).toContain('stop hole-taken v')
    const near = (radius: number) => found({ hardware: [piece('w', 1, { slot: 'S1', radius })] })
    expect(near(90)).toContain('stop hole-taken c1')
    expect(near(100)).not.toContain('stop hole-taken c1')
  })
  test('a dowel wants a plain hole that it goes into', () => {
    const dowel = (diameter: number, at: { hole: string } | { x: number; y: number }): Hardware => ({
      id: 'd',
      kind: 'dowel',
      at,
      diameter,
      length: 20,
      fixed: true,
    })
    expect(found({ hardware: [dowel(13, { hole: 'H1' })] })).toEqual([])
    expect(found({ hardware: [dowel(14, { hole: 'H1' })] })).toEqual(['stop stud-does-not-fit d'])
    expect(found({ hardware: [dowel(10, { x: 60, y: 60 })] })).toEqual(['stop bolt-in-solid d'])
  })
})

describe('the lip of a tee slot', () => {
  const slots = (lip: number | null) => ({
    slots: [0, 180].map((angle, i) => ({
      id: i === 0 ? 'S1' : 'S3',
      angle,
      from: 55,
      to: 135,
      width: 14,
      kind: 'tee' as const,
      teeWidth: 22,
      lip,
    })),
  })
  test('10.4 kN on lips of 9 are carried; of 3 they break; not given they count as 7', () => {
    // Each lip, 4 out: 5208 N at 2 mm over (22 + 2t)·t²/6: 19 N/mm² at 9, 248 at 3.
    expect(found({ plate: slots(9) })).toEqual([])
    expect(found({ plate: slots(3) })).toContain('stop lip-breaks c1')
    expect(found({ plate: slots(null) })).toEqual([])
  })
  test('not given and pulled hard: not judged', () => {
    const hard = { torque: 80, ...strap({ thickness: 60, steel: '42CrMo4+QT' }) }
    const { c1, found: all } = look({ plate: slots(null), clamp: hard })
    expect(all).toContain('caution lip-not-judged c1')
    expect(c1.state).toBe('unknown')
  })
})
