/** Opening an address in the browser that is installed. */
import { spawn } from 'node:child_process'

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

/** Opens the address with the first browser that starts; false where none did. */
export async function openBrowser(address: string, platform: NodeJS.Platform): Promise<boolean> {
  for (const { program, args } of openersFor(platform)) if (await starts(program, args(address))) return true
  return false
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
