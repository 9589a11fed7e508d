/** Command line words to a call; every mistake becomes a `Failure` that says what to write instead. */
import { parseArgs } from 'node:util'
import type { Call, CliIo, Command } from './command.ts'
import { Failure } from './failure.ts'

export interface Parsed {
  readonly call: Call
  readonly help: boolean
}

export function parseCall(name: string, command: Command, words: readonly string[], io: CliIo): Parsed {
  let parsed
  try {
    parsed = parseArgs({
      args: [...words],
      options: { ...command.options, help: { type: 'boolean', short: 'h' } },
      allowPositionals: true,
      strict: true,
    })
  } catch (error) {
    throw new Failure(`${name}: ${argumentFault(error)}; usage: ${command.usage}`)
  }
  const call: Call = { io, positionals: parsed.positionals, values: parsed.values }
  if (call.values['help'] === true) return { call, help: true }
  const { positionals } = command
  if (parsed.positionals.length < positionals.length)
    throw new Failure(
      `${name}: ${positionals[parsed.positionals.length]} is missing; usage: ${command.usage}`,
    )
  if (parsed.positionals.length > positionals.length)
    throw new Failure(
      `${name}: "${parsed.positionals[positionals.length]}" is one word too many; usage: ${command.usage}`,
    )
  return { call, help: false }
}

/** The first sentence of the parser's own message, in our words. */
function argumentFault(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error)
  const unknown = /^Unknown option '([^']*)'/.exec(message)
  if (unknown) return `there is no option ${unknown[1]}`
  const needs = /^Option '(?:-\w, )?(--[^ ']+)[^']*' argument (missing|is ambiguous)/.exec(message)
  if (needs) return `${needs[1]} needs a value`
  const takesNone = /^Option '(?:-\w, )?(--[^ ']+)' does not take an argument/.exec(message)
  if (takesNone) return `${takesNone[1]} takes no value`
  return message.split(/[.\n]/)[0] ?? message
}
