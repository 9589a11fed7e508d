/**
 * The same page and the same services without Electron: an HTTP host on this machine's own address only. A request
 * needs the right `Host`, a session, and for anything that acts the right `Origin` and the page's key.
 */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { KEY_FRAGMENT, KEY_HEADER } from '../../src-core/bridge/pageKey.ts'
import { answer, refuse } from '../requests/answer.ts'
import { isVerb } from '../requests/registry.ts'
import type { HostServices } from '../services/hostServices.ts'
import { goingOnTo } from '../web/goingOn.ts'
import { rendererFile } from '../web/rendererFiles.ts'
import { SECURITY_HEADERS } from '../web/securityHeaders.ts'
import { argsOf, readBody } from './body.ts'
import { createSessions, type Sessions } from './session.ts'

/** A file at the services' own limit, as base64, with room for the rest. */
const BODY_LIMIT = 96 * 1024 * 1024

export interface LoopbackOptions {
  readonly rendererFolder: string
  readonly services: HostServices
  readonly report: (error: unknown) => void
  /** Bytes of a request's body. */
  readonly bodyLimit?: number
}

export interface Loopback {
  readonly origin: string
  /** An address to open once; the one given before stops working. */
  newAddress(): string
  close(): Promise<void>
}

const NO_KEY =
  'This window was not opened by the address that the program printed. Press Enter where it runs for a new one, and open that'

interface Context extends LoopbackOptions {
  readonly sessions: Sessions
  readonly origin: string
}

/** Starts on a free port of 127.0.0.1. */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  let port = 0
  const sessions = createSessions(() => `evenswing-${port}`)
  const server = createServer((request, response) => {
    const context = { ...options, sessions, origin: `http://127.0.0.1:${port}` }
    respond(context, request, response).catch((error: unknown) => {
      options.report(error)
      if (response.headersSent) response.destroy()
      else sendText(response, 500, 'The host failed')
    })
  })
  await listen(server)
  port = (server.address() as AddressInfo).port
  const origin = `http://127.0.0.1:${port}`
  return {
    origin,
    newAddress: () => `${origin}/?token=${sessions.newToken()}`,
    close: () =>
      new Promise((done) => {
        server.close(() => done())
        server.closeAllConnections()
      }),
  }
}

function listen(server: Server): Promise<void> {
  return new Promise((done, fail) => {
    server.once('error', fail)
    server.listen(0, '127.0.0.1', () => done())
  })
}

async function respond(context: Context, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { headers, method } = request
  if (headers.host !== context.origin.slice('http://'.length)) return sendText(response, 421, 'Wrong host')
  if (headers.origin !== undefined && headers.origin !== context.origin)
    return sendText(response, 403, 'Wrong origin')
  const url = parseUrl(request.url ?? '/', context.origin)
  if (url?.origin !== context.origin) return sendText(response, 400, 'Bad address')
  if (method === 'POST') return answerCall(context, request, response, url.pathname)
  if (method !== 'GET' && method !== 'HEAD') return sendText(response, 405, 'Only GET and POST')
  const token = url.searchParams.get('token')
  if (token !== null && method === 'GET') return exchangeToken(context, request, response, token)
  if (!context.sessions.holds(headers.cookie))
    return sendText(response, 403, 'No session. Open the address that the program printed; it works once.')
  // The parser of URLs resolves dots; the file is looked up by what was really asked for.
  const file = await rendererFile(context.rendererFolder, (request.url ?? '/').split(/[?#]/)[0]!)
  if (!file) return sendText(response, 404, 'Not found')
  response.writeHead(200, {
    ...SECURITY_HEADERS,
    'content-type': file.type,
    'content-length': file.bytes.length,
  })
  response.end(method === 'HEAD' ? undefined : file.bytes)
}

function parseUrl(path: string, base: string): URL | null {
  try {
    return new URL(path, base)
  } catch {
    return null
  }
}

function exchangeToken(
  context: Context,
  request: IncomingMessage,
  response: ServerResponse,
  token: string,
): void {
  const { sessions } = context
  const session = sessions.exchange(token)
  if (session === null && !sessions.holds(request.headers.cookie))
    return sendText(response, 403, 'This address was used already, or is not the one the program printed.')
  if (session === null) {
    response.writeHead(303, { ...SECURITY_HEADERS, location: '/' })
    return void response.end()
  }
  // A page of this host goes on to the window: on a redirect from elsewhere the browser would hold the cookie back.
  response.writeHead(200, {
    ...SECURITY_HEADERS,
    'set-cookie': sessions.cookieFor(session),
    'content-type': 'text/html; charset=utf-8',
  })
  response.end(goingOnTo(`/#${KEY_FRAGMENT}=${sessions.key}`))
}

async function answerCall(
  context: Context,
  request: IncomingMessage,
  response: ServerResponse,
  path: string,
): Promise<void> {
  const refused = (status: number, why: string) => sendJson(response, status, refuse('request.refused', why))
  if (request.headers.origin !== context.origin) return refused(403, 'Wrong origin')
  if (!context.sessions.holds(request.headers.cookie)) return refused(403, 'No session')
  if (!context.sessions.isKey(request.headers[KEY_HEADER])) return refused(403, NO_KEY)
  const verb = /^\/rpc\/([A-Za-z]+)$/.exec(path)?.[1] ?? ''
  if (!isVerb(verb)) return refused(404, 'There is no such request')
  if (!/^application\/json\s*(;|$)/i.test(request.headers['content-type'] ?? ''))
    return refused(415, 'Only JSON')
  const body = await readBody(request, context.bodyLimit ?? BODY_LIMIT)
  if (!body.ok) {
    response.setHeader('connection', 'close')
    return refused(body.status, body.why)
  }
  const args = argsOf(body.text)
  if (!args) return refused(400, 'The request is not of the form {"args":[...]}')
  const reply = await answer(context.services, verb, args, context.report)
  sendJson(response, !reply.ok && reply.fault.code === 'request.refused' ? 400 : 200, reply)
}

function sendText(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' })
  response.end(`${text}\n`)
}

function sendJson(response: ServerResponse, status: number, value: unknown): void {
  response.writeHead(status, { ...SECURITY_HEADERS, 'content-type': 'application/json; charset=utf-8' })
  response.end(JSON.stringify(value))
}
