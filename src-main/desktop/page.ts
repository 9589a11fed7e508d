/** Where the window's page comes from: the built one on `app://`, or the development server. */

export const SCHEME = 'app'
export const PAGE_URL = `${SCHEME}://evenswing/index.html`

/** The page to load. A development server is taken only in an unpackaged program, and only on this machine. */
export function pageUrl(env: NodeJS.ProcessEnv, packaged: boolean): string {
  const given = env['ELECTRON_RENDERER_URL']
  if (!given || packaged) return PAGE_URL
  try {
    const url = new URL(given)
    if (url.protocol === 'http:' && ['localhost', '127.0.0.1', '[::1]'].includes(url.hostname)) return given
  } catch {
    // Not a URL: the built page.
  }
  return PAGE_URL
}

/** Whether two URLs are of one page's origin. `URL.origin` is "null" for own schemes, so protocol and host count. */
export function sameOrigin(one: string, other: string): boolean {
  try {
    const a = new URL(one)
    const b = new URL(other)
    return a.protocol === b.protocol && a.host === b.host
  } catch {
    return false
  }
}
