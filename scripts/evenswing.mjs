// `npm run evenswing` and `npm run demo`: the command line, bundled anew where its sources have changed.
import { fileURLToPath, pathToFileURL } from 'node:url'
import { cliBundle } from './cliBundle.mjs'

const root = fileURLToPath(new URL('..', import.meta.url))

/**
 * What the builder says first, on one line: what is wrong and where.
 * @param {unknown} error
 */
function inOneLine(error) {
  const text = error instanceof Error ? error.message : String(error)
  // eslint-disable-next-line no-control-regex
  const plain = text.replace(/\u001b\[[\d;]*m/g, '')
  return plain
    .split('\n')
    .map((line) => line.replace(/[\u2500-\u257f]+/g, ' ').trim())
    .filter(Boolean)
    .slice(0, 3)
    .join(' ')
}

async function bundle() {
  try {
    return await cliBundle(root)
  } catch (error) {
    process.stderr.write(`evenswing: the program could not be built: ${inOneLine(error)}\n`)
    process.exitCode = 2
    return null
  }
}

const file = await bundle()
if (file !== null) await (await import(pathToFileURL(file).href)).main(root)
