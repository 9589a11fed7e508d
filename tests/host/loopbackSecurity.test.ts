/** Who the loopback host talks to, and what it gives away. */
import { symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { KEY_HEADER } from '../../src-core/bridge/pageKey.ts'
import { CONTENT_SECURITY_POLICY } from '../../src-main/web/securityHeaders.ts'
import { ask, type Ask } from './helpers.ts'
import { openSession, startTestLoopback } from './shells.ts'

const JSON_TYPE = { 'content-type': 'application/json' }

async function withSession(bodyLimit?: number) {
  const started = await startTestLoopback(bodyLimit)
  const { origin } = started.loopback
  const session = await openSession(started.loopback)
  const { cookie } = session
  const get = (path: string, headers: Record<string, string> = {}) =>
    ask(origin, { path, headers: { cookie, ...headers } })
  const post = (path: string, more: Partial<Ask> = {}) =>
    ask(origin, {
      method: 'POST',
      path,
      body: '{"args":[]}',
      ...more,
      headers: { ...session, origin, ...JSON_TYPE, ...more.headers },
    })
  return { ...started, origin, cookie, session, get, post }
}

test('listens on this machine only, on a free port', async () => {
  const { loopback } = await startTestLoopback()
  expect(loopback.origin).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/)
})

test('the printed address works once; its cookie is for this page alone', async () => {
  const { loopback } = await startTestLoopback()
  const path = new URL(loopback.newAddress()).search
  const first = await ask(loopback.origin, { path: `/${path}` })
  // Not by a redirect: coming from elsewhere, the browser would hold a strict cookie back.
  expect(first.status).toBe(200)
  expect(first.text).toMatch(/http-equiv="refresh" content="0;url=\/#key=[\w-]{43}"/)
  const [cookie] = first.headers['set-cookie'] as string[]
  expect(cookie).toMatch(/; Path=\/; HttpOnly; SameSite=Strict$/)
  const second = await ask(loopback.origin, { path: `/${path}` })
  expect(second.status).toBe(403)
  expect(second.headers['set-cookie']).toBeUndefined()
  const page = await ask(loopback.origin, { path: '/', headers: { cookie: cookie!.split(';')[0]! } })
  expect([page.status, page.text]).toEqual([200, '<!doctype html><title>page</title>'])
})

test('a new address kills the one before', async () => {
  const { loopback } = await startTestLoopback()
  const old = new URL(loopback.newAddress()).search
  loopback.newAddress()
  expect((await ask(loopback.origin, { path: `/${old}` })).status).toBe(403)
})

test('a wrong token gives nothing, and does not spend the right one', async () => {
  const { loopback } = await startTestLoopback()
  const right = new URL(loopback.newAddress()).search
  for (const token of ['', 'x', 'x'.repeat(43), '%00', '%E0%A4%A'])
    expect((await ask(loopback.origin, { path: `/?token=${token}` })).status).toBe(403)
  expect((await ask(loopback.origin, { path: `/${right}` })).status).toBe(200)
})

test('the token is spent only by opening it', async () => {
  const { loopback } = await startTestLoopback()
  const path = `/${new URL(loopback.newAddress()).search}`
  const headers = { origin: loopback.origin, ...JSON_TYPE }
  expect((await ask(loopback.origin, { method: 'HEAD', path })).status).toBe(403)
  expect((await ask(loopback.origin, { method: 'POST', path, headers })).status).toBe(403)
  expect((await ask(loopback.origin, { path })).status).toBe(200)
})

test.each(['/', '/index.html', '/assets/app.js'])('no session: %s is refused', async (path) => {
  const { loopback } = await startTestLoopback()
  for (const cookie of ['', `evenswing-${new URL(loopback.origin).port}=guess`, 'evenswing-1=x']) {
    const answer = await ask(loopback.origin, { path, headers: { cookie } })
    expect(answer.status).toBe(403)
    expect(answer.text).not.toContain('page</title>')
  }
})

test('no session: requests are refused, whatever the origin', async () => {
  const { origin, post } = await withSession()
  expect((await post('/rpc/info')).status).toBe(200)
  const answer = await post('/rpc/info', { headers: { cookie: '' } })
  expect(answer.status).toBe(403)
  expect(JSON.parse(answer.text)).toMatchObject({ ok: false, fault: { code: 'request.refused' } })
  expect(
    (await ask(origin, { method: 'POST', path: '/rpc/info', headers: { origin, ...JSON_TYPE } })).status,
  ).toBe(403)
})

test.each(['localhost', 'evil.example', '127.0.0.1', '127.0.0.1:1', '[::1]:80'])(
  'the Host header %j is refused, with a session too',
  async (host) => {
    const { loopback, get, post } = await withSession()
    expect((await get('/', { host })).status).toBe(421)
    expect((await post('/rpc/info', { headers: { host } })).status).toBe(421)
    const address = new URL(loopback.newAddress())
    expect((await ask(loopback.origin, { path: `/${address.search}`, headers: { host } })).status).toBe(421)
  },
)

test.each(['http://evil.example', 'null', 'http://localhost:1', 'https://127.0.0.1', 'http://127.0.0.1:1'])(
  'the Origin %j is refused, with a session too',
  async (origin) => {
    const { get, post } = await withSession()
    expect((await get('/', { origin })).status).toBe(403)
    expect((await post('/rpc/info', { headers: { origin } })).status).toBe(403)
  },
)

test('a request with the cookie, which goes to other ports too, but without the page’s key is refused', async () => {
  const { origin, cookie, post } = await withSession()
  const other = await openSession((await startTestLoopback()).loopback)
  for (const key of [undefined, '', 'x'.repeat(43), other[KEY_HEADER]]) {
    const headers = { cookie, origin, ...JSON_TYPE, ...(key !== undefined && { [KEY_HEADER]: key }) }
    const answer = await ask(origin, { method: 'POST', path: '/rpc/info', headers, body: '{"args":[]}' })
    expect(answer.status).toBe(403)
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false, fault: { code: 'request.refused' } })
  }
  expect((await post('/rpc/info')).status).toBe(200)
})

test('a request without an Origin is refused', async () => {
  const { origin, session } = await withSession()
  const headers = { ...session, ...JSON_TYPE }
  const answer = await ask(origin, { method: 'POST', path: '/rpc/info', headers, body: '{"args":[]}' })
  expect(answer.status).toBe(403)
})

test('a form of another site, which can only send plain types, is refused', async () => {
  const { post } = await withSession()
  for (const type of [
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data',
    'application/jsonp',
  ])
    expect((await post('/rpc/info', { headers: { 'content-type': type } })).status).toBe(415)
})

test.each([
  '/rpc/nothing',
  '/rpc/__proto__',
  '/rpc/constructor',
  '/rpc/toString',
  '/rpc/',
  '/rpc/info/x',
  '/info',
  '/',
])('there is no request %s', async (path) => {
  const { post } = await withSession()
  const answer = await post(path)
  expect(answer.status).toBe(404)
  expect(JSON.parse(answer.text)).toMatchObject({ ok: false, fault: { code: 'request.refused' } })
})

test.each([
  '',
  'null',
  '[]',
  '{}',
  '{"args":{}}',
  '{"args":',
  '"args"',
  '{"args":[{"base64":"!"}]}',
  '{"args":[1,2,3]}',
])('the body %j is refused in the form of a reply', async (body) => {
  const { post, reported } = await withSession()
  const answer = await post('/rpc/readExample', { body })
  expect(answer.status).toBe(400)
  expect(JSON.parse(answer.text)).toMatchObject({ ok: false, fault: { code: 'request.refused' } })
  expect(reported).toEqual([])
})

test('a body over the limit is refused, announced or not, and the host goes on', async () => {
  const { post } = await withSession(1000)
  const body = JSON.stringify({ args: ['x'.repeat(5000)] })
  expect(
    (await post('/rpc/readExample', { body, headers: { 'content-length': String(body.length) } })).status,
  ).toBe(413)
  const chunked = await post('/rpc/readExample', { body, headers: { 'transfer-encoding': 'chunked' } })
  expect(chunked.status).toBe(413)
  expect(JSON.parse(chunked.text)).toMatchObject({ ok: false })
  expect((await post('/rpc/info')).status).toBe(200)
})

test.each([
  '/../secret.html',
  '/assets/../../secret.html',
  '/%2e%2e/secret.html',
  '/..%2fsecret.html',
  '/assets/..%5c..%5csecret.html',
  '//secret.html',
  '/./index.html',
  '/index.html/',
  '/index.html%00.js',
  '/%',
  '/assets',
  '/.env',
])('%s leads nowhere', async (path) => {
  const { get } = await withSession()
  const answer = await get(path)
  expect([400, 404]).toContain(answer.status)
  expect(answer.text).not.toContain('not for the page')
})

test.skipIf(process.platform === 'win32')(
  'a link out of the folder of the page is not followed',
  async () => {
    const { folder, get } = await withSession()
    writeFileSync(join(folder, 'outside.js'), 'secret')
    symlinkSync(join(folder, 'outside.js'), join(folder, 'renderer', 'link.js'))
    expect((await get('/link.js')).status).toBe(404)
    symlinkSync(join(folder, 'renderer', 'assets', 'app.js'), join(folder, 'renderer', 'inside.js'))
    expect((await get('/inside.js')).status).toBe(200)
  },
)

test('an address of another host is no page of this one', async () => {
  const { get } = await withSession()
  expect((await get('http://evil.example/index.html')).status).toBe(400)
})

test('other methods are refused', async () => {
  const { origin, cookie } = await withSession()
  for (const method of ['PUT', 'DELETE', 'OPTIONS', 'PATCH'])
    expect((await ask(origin, { method, path: '/', headers: { cookie } })).status).toBe(405)
})

test('every answer carries the security headers, refusals too', async () => {
  const { loopback, get, post } = await withSession()
  const answers = [
    await get('/'),
    await get('/assets/app.js'),
    await get('/none.js'),
    await post('/rpc/info'),
    await post('/rpc/none'),
    await ask(loopback.origin, { path: '/' }),
    await ask(loopback.origin, { path: `/${new URL(loopback.newAddress()).search}` }),
  ]
  for (const { headers } of answers) {
    expect(headers['content-security-policy']).toBe(CONTENT_SECURITY_POLICY)
    expect(headers['x-content-type-options']).toBe('nosniff')
    expect(headers['referrer-policy']).toBe('no-referrer')
    expect(headers['cache-control']).toBe('no-store')
    expect(headers['access-control-allow-origin']).toBeUndefined()
  }
})
