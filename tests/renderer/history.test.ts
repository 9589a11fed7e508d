import { describe, expect, test } from 'vitest'
import fc from 'fast-check'
import * as h from '../../src-renderer/state/history.ts'

describe('history', () => {
  test('a gesture of many replacements is one step', () => {
    let s = h.begin(h.startHistory(0), 'drag')
    for (let i = 1; i <= 5; i++) s = h.replace(s, i)
    s = h.commit(s)
    expect(s.past.map((p) => p.label)).toEqual(['drag'])
    expect(h.undo(s).present).toBe(0)
    expect(h.redo(h.undo(s)).present).toBe(5)
  })

  test('nothing changed means no step, and the redo steps stay', () => {
    let s = h.commit(h.replace(h.begin(h.startHistory(0), 'a'), 1))
    s = h.undo(s)
    s = h.commit(h.begin(s, 'click'))
    expect(s.past).toHaveLength(0)
    expect(h.redo(s).present).toBe(1)
  })

  test('cancel puts everything back, redo too', () => {
    let s = h.undo(h.commit(h.replace(h.begin(h.startHistory(0), 'a'), 1)))
    s = h.cancel(h.replace(h.begin(s, 'drag'), 7))
    expect(s.present).toBe(0)
    expect(h.redo(s).present).toBe(1)
  })

  test('undo during a gesture cancels it and takes back nothing before it', () => {
    let s = h.commit(h.replace(h.begin(h.startHistory(0), 'a'), 1))
    s = h.undo(h.replace(h.begin(s, 'drag'), 7))
    expect(s.present).toBe(1)
    expect(s.gesture).toBeNull()
    expect(s.past).toHaveLength(1)
  })

  test('a new gesture commits the one that was open', () => {
    const s = h.begin(h.replace(h.begin(h.startHistory(0), 'a'), 1), 'b')
    expect(s.past.map((p) => p.label)).toEqual(['a'])
  })

  test('a change outside a gesture is refused', () => {
    expect(() => h.replace(h.startHistory(0), 1)).toThrow(/outside a gesture/)
  })

  test('agrees with a list of states, whatever is done', () => {
    const act = fc.oneof(
      fc.record({ do: fc.constant('edit' as const), value: fc.integer() }),
      fc.record({ do: fc.constant('cancelled' as const), value: fc.integer() }),
      fc.record({ do: fc.constantFrom('undo' as const, 'redo' as const), value: fc.constant(0) }),
    )
    fc.assert(
      fc.property(fc.array(act, { maxLength: 60 }), (acts) => {
        let s = h.startHistory(0)
        let states = [0]
        let at = 0
        for (const a of acts) {
          if (a.do === 'edit') {
            s = h.commit(h.replace(h.begin(s, 'edit'), a.value))
            if (a.value !== states[at]) {
              states = [...states.slice(0, at + 1), a.value]
              at++
            }
          } else if (a.do === 'cancelled') s = h.cancel(h.replace(h.begin(s, 'x'), a.value))
          else if (a.do === 'undo') {
            s = h.undo(s)
            at = Math.max(0, at - 1)
          } else {
            s = h.redo(s)
            at = Math.min(states.length - 1, at + 1)
          }
          expect(s.present).toBe(states[at])
          expect(s.past).toHaveLength(at)
          expect(s.future).toHaveLength(states.length - 1 - at)
        }
      }),
    )
  })
})
