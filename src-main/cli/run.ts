/** The command line: words in, exit code out. Nothing is thrown, whatever the words or the files are. */
import { HostError, messageOf } from '../services/hostError.ts'
import { parseCall } from './arguments.ts'
import type { CliIo } from './command.ts'
import { COMMANDS } from './commands.ts'
import { EXIT, Failure, oneLine } from './failure.ts'
import { commandHelp, generalHelp } from './help.ts'

export async function run(words: readonly string[], io: CliIo): Promise<number> {
  try {
    return await dispatch(words, io)
  } catch (error) {
    const foreseen = error instanceof Failure || error instanceof HostError
    io.note(foreseen ? error.message : `the program failed: ${messageOf(error)}`)
    return EXIT.refused
  }
}

async function dispatch(words: readonly string[], io: CliIo): Promise<number> {
  const [name, ...rest] = words
  if (name === '--help' || name === '-h' || name === 'help') {
    io.out(generalHelp(COMMANDS))
    return EXIT.done
  }
  const names = Object.keys(COMMANDS).join(', ')
  if (name === undefined) throw new Failure(`a command is missing: ${names}; --help says more`)
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined
  if (!command) throw new Failure(`there is no command "${oneLine(name, 60)}"; there are ${names}`)
  const { call, help } = parseCall(name, command, rest, io)
  if (!help) return await command.run(call)
  io.out(commandHelp(command))
  return EXIT.done
}
