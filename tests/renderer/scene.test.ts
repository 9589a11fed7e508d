import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { reconcile } from '../../src-renderer/canvas/reconcile.ts'
import { sceneDescription } from '../../src-renderer/scene/sceneDescription.ts'
import type { SceneItem } from '../../src-renderer/scene/items.ts'
import { setTurn } from '../../src-renderer/editor/edits/mounting.ts'
import { exampleJob } from './example.ts'

const still = {
  selection: null,
  hover: null,
  guide: null,
  highlight: null,
  turning: false,
  length: (mm: number) => `${mm} mm`,
} as const

function scene(job = exampleJob(), session: Partial<Parameters<typeof sceneDescription>[2]> = {}) {
  const mounted = mountSetup(job, 'op10')
  return sceneDescription(mounted, analyse(job, 'op10'), { ...still, ...session })
}
const find = (items: SceneItem[], id: string) => items.find((i) => i.id === id)

describe('scene description', () => {
  test('shows plate, every slot, part, bores, every piece, axis and centre of mass, each once', () => {
    const job = exampleJob()
    const items = scene(job)
    const ids = items.map((i) => i.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const id of [
      'plate',
      'bed',
      'swing',
      'cross-slide',
      'body:link',
      'bore:A',
      'axis',
      'centre-of-mass',
      'heavy',
    ])
      expect(ids).toContain(id)
    for (const s of job.plate.slots) expect(ids).toContain(`slot:${s.id}`)
    for (const h of job.setups[0]!.hardware) expect(ids).toContain(`piece:${h.id}`)
  })

  test('the heavy side points where the analysis says', () => {
    const job = setTurn(exampleJob(), 'op10', 90)
    const arrow = find(scene(job), 'heavy')
    const { static_angle_deg } = analyse(job, 'op10').unbalance
    if (arrow?.kind !== 'arrow') throw new Error('no arrow')
    const angle = (Math.atan2(arrow.to.y, arrow.to.x) * 180) / Math.PI
    expect((angle + 360) % 360).toBeCloseTo(static_angle_deg, 6)
  })

  test('the part is drawn where it is mounted', () => {
    const turned = find(scene(setTurn(exampleJob(), 'op10', 90)), 'body:link')
    if (turned?.kind !== 'region') throw new Error('no part')
    const ys = turned.rings[0]!.map((v) => v.y)
    expect(Math.max(...ys)).toBeGreaterThan(110)
  })

  test('selection, hovering and findings stand out', () => {
    const selected = scene(exampleJob(), {
      selection: { kind: 'piece', id: 'c1' },
      hover: { kind: 'slot', id: 'S4' },
    })
    expect(find(selected, 'piece:c1')?.emphasis?.selected).toBe(true)
    expect(find(selected, 'slot:S4')?.emphasis?.hovered).toBe(true)
    expect(find(selected, 'handle:nose-handle')).toBeDefined()
    expect(find(scene(), 'handle:nose-handle')).toBeUndefined()
    const job = exampleJob()
    const far = {
      ...job,
      setups: job.setups.map((s) => ({
        ...s,
        hardware: s.hardware.map((h) => (h.id === 'w1' ? { ...h, at: { x: -200, y: 0 } } : h)),
      })),
    }
    expect(find(scene(far), 'piece:w1')?.emphasis?.flag).toBe('stop')
  })

  test('turning by hand leaves handles and guides away', () => {
    const items = scene(exampleJob(), { selection: { kind: 'part' }, turning: true })
    expect(items.some((i) => i.role === 'handle')).toBe(false)
    expect(find(items, 'corner')).toBeDefined()
  })
})

describe('reconcile', () => {
  interface Node {
    text: string
    alive: boolean
    updates: number
  }
  const run = (nodes: Map<string, Node>, items: { id: string }[], log: string[]) =>
    reconcile(nodes, items, {
      create: (i) => ({ text: i.id, alive: true, updates: 0 }),
      update: (n) => void n.updates++,
      destroy: (n) => void (n.alive = false),
      place: (n, index) => void log.push(`${n.text}@${index}`),
    })
  test('creates, updates, destroys and keeps the order', () => {
    const nodes = new Map<string, Node>()
    const log: string[] = []
    run(nodes, [{ id: 'a' }, { id: 'b' }], log)
    const a = nodes.get('a')!
    const b = nodes.get('b')!
    log.length = 0
    run(nodes, [{ id: 'a' }, { id: 'b' }], log)
    expect(log).toEqual([])
    expect(nodes.get('a')).toBe(a)
    expect(a.updates).toBe(1)
    run(nodes, [{ id: 'c' }, { id: 'a' }], log)
    expect(b.alive).toBe(false)
    expect([...nodes.keys()]).toEqual(['c', 'a'])
    expect(log).toEqual(['c@0', 'a@1'])
  })
})
