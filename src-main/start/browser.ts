/** Opening an address in the browser that is installed. */
import { spawn } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { mkdir, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { goingOnTo } from '../web/goingOn.ts'

interface Opener {
  readonly program: string
  readonly args: (address: string) => readonly string[]
}

const plain = (program: string): Opener => ({ program, args: (address) => [address] })

function openersFor(platform: NodeJS.Platform): readonly Opener[] {
  if (platform === 'darwin') return [plain('open')]
  if (platform === 'win32')
    return [{ program: 'rundll32', args: (address) => ['url.dll,FileProtocolHandler', address] }]
  const asWindow = (program: string): Opener => ({ program, args: (address) => [`--app=${address}`] })
  return [
    ...['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map(asWindow),
    plain('firefox'),
    plain('xdg-open'),
  ]
}

/**
 * Opens the address with the first browser that starts; false where none did. What a program is started with is seen
 * by everyone on the machine, so the browser is given a file that only this user may read and that leads to the
 * address. `folder` is where it is put; `forget` takes it away.
 */
export async function openBrowser(
  address: string,
  platform: NodeJS.Platform,
  folder: string,
): Promise<{ readonly isOpen: boolean; readonly forget: () => Promise<void> }> {
  const file = join(folder, `open-${randomBytes(9).toString('base64url')}.html`)
  const forget = () => rm(file, { force: true })
  await mkdir(folder, { recursive: true, mode: 0o700 })
  await writeFile(file, goingOnTo(address), { mode: 0o600, flag: 'wx' })
  for (const { program, args } of openersFor(platform))
    if (await starts(program, args(pathToFileURL(file).href))) return { isOpen: true, forget }
  await forget()
  return { isOpen: false, forget }
}

/** A browser that cannot run ends at once with a fault; one that runs stays, or hands over and ends well. */
function starts(program: string, args: readonly string[]): Promise<boolean> {
  return new Promise((done) => {
    const child = spawn(program, args, { stdio: 'ignore', detached: true })
    const patience = setTimeout(() => done(true), 1500)
    child.once('error', () => {
      clearTimeout(patience)
      done(false)
    })
    child.once('exit', (code) => {
      clearTimeout(patience)
      done(code === 0)
    })
    child.unref()
  })
}
