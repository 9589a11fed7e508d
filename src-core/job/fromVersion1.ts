/**
 * Lifts a document of version 1 to version 2. A clamp was a box with typed levers then: it becomes a `press`, which
 * weighs and swings as before and of which it cannot be worked out what it presses on. Nothing is made up.
 */
import { isRecord, type Raw } from './versions.ts'

const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : [])

export function fromVersion1(document: Raw): Raw {
  const { setups } = document
  return {
    ...document,
    version: 2,
    ...(Array.isArray(setups) ? { setups: setups.map((s) => (isRecord(s) ? liftSetup(s) : s)) } : {}),
  }
}

function liftSetup(setup: Raw): Raw {
  if (!Array.isArray(setup['hardware'])) return setup
  return { ...setup, hardware: listOf(setup['hardware']).map((h) => (isRecord(h) ? liftPiece(h) : h)) }
}

/** A piece of hardware of version 1. */
export function liftPiece(piece: Raw): Raw {
  const { clamp, ...rest } = piece
  const kind = piece['kind'] === 'clamp' ? 'press' : piece['kind']
  return { ...rest, kind, ...(clamp === undefined ? {} : { press: clamp }) }
}
