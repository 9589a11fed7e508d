/** The window's own scheme: the built page with its security headers, without any server. */
import { protocol } from 'electron'
import { rendererFile } from '../web/rendererFiles.ts'
import { SECURITY_HEADERS } from '../web/securityHeaders.ts'
import { PAGE_URL, sameOrigin, SCHEME } from './page.ts'

/** Must run before the program is ready. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ])
}

export function serveRenderer(folder: string): void {
  protocol.handle(SCHEME, (request) => answerRequest(folder, request))
}

async function answerRequest(folder: string, request: Request): Promise<Response> {
  const plain = (status: number, text: string) =>
    new Response(text, {
      status,
      headers: { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' },
    })
  if (request.method !== 'GET' && request.method !== 'HEAD') return plain(405, 'Only GET')
  if (!sameOrigin(request.url, PAGE_URL)) return plain(404, 'Not found')
  const file = await rendererFile(folder, new URL(request.url).pathname)
  if (!file) return plain(404, 'Not found')
  return new Response(new Uint8Array(file.bytes), {
    headers: { ...SECURITY_HEADERS, 'content-type': file.type },
  })
}
