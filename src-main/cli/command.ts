/** What a command of the command line is. */
import type { ParseArgsConfig } from 'node:util'

type OptionsConfig = NonNullable<ParseArgsConfig['options']>

export interface CliIo {
  /** Writes a text to standard output. */
  out(text: string): void
  /** Writes one line to standard error. */
  note(line: string): void
  /** Folder that relative paths start from: where the user stood. */
  readonly cwd: string
  /** Folder of the program itself. */
  readonly root: string
}

export interface Call {
  readonly io: CliIo
  readonly positionals: readonly string[]
  readonly values: Readonly<Record<string, string | boolean | readonly (string | boolean)[] | undefined>>
}

export interface Command {
  readonly usage: string
  readonly summary: string
  /** Lines for `--help`: option and meaning. */
  readonly help: readonly (readonly [string, string])[]
  readonly options: OptionsConfig
  /** Names of the positional arguments, all wanted. */
  readonly positionals: readonly string[]
  /** Gives the exit code; throws `Failure` for bad usage or input. */
  run(call: Call): Promise<number>
}

export const textValue = (call: Call, name: string): string | undefined => {
  const value = call.values[name]
  return typeof value === 'string' ? value : undefined
}

export const flag = (call: Call, name: string): boolean => call.values[name] === true

/** Prints a value as indented JSON. */
export const printJson = (io: CliIo, value: unknown): void => io.out(`${JSON.stringify(value, null, 2)}\n`)
