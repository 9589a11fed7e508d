import { readFileSync } from 'node:fs'
import { expect } from 'vitest'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { FakeElectron } from './shells.ts'

/** Runs a built preload as a sandboxed one is run: as a script whose only module is `electron`. */
export function loadPreload(electron: FakeElectron, path: string): Host {
  electron.state.exposed = {}
  const required: string[] = []
  const require = (name: string) => {
    required.push(name)
    return electron
  }
  new Function('require', 'module', 'exports', readFileSync(path, 'utf8'))(require, { exports: {} }, {})
  expect(new Set(required)).toEqual(new Set(['electron']))
  return electron.state.exposed['host'] as Host
}
