/** Telling processes of this machine from those of others, and the living from the dead. */
import { readlinkSync } from 'node:fs'
import { hostname } from 'node:os'
import { systemCode } from './hostError.ts'

let ownName: string | null = null

/** This machine as far as process numbers mean the same: two containers may share a name, not their processes. */
export function machine(): string {
  return (ownName ??= `${hostname().replace(/\s/g, '-')}${processSpace()}`)
}

function processSpace(): string {
  if (process.platform !== 'linux') return ''
  try {
    return `/${readlinkSync('/proc/self/ns/pid').replace(/\D/g, '')}`
  } catch {
    return ''
  }
}

export function isAlive(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return systemCode(error) === 'EPERM'
  }
}
