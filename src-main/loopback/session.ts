/**
 * Who may talk to the loopback host: a token that works once gives a session that the browser keeps as a cookie, and a
 * key that only the page has.
 */
import { randomBytes, timingSafeEqual, createHash } from 'node:crypto'

export interface Sessions {
  /** A new one-time token; one that was not used yet dies. */
  newToken(): string
  /** The cookie's value for a right token, which is dead from then on; null for a wrong or dead one. */
  exchange(token: string): string | null
  /** Whether a `Cookie` header holds a session made here. */
  holds(cookieHeader: string | undefined): boolean
  cookieFor(session: string): string
  /** What the page sends with every request besides the cookie, which goes to other ports too. */
  readonly key: string
  isKey(given: string | string[] | undefined): boolean
}

/** `cookieName` should name the port: cookies are not kept apart by it. */
export function createSessions(cookieName: () => string): Sessions {
  let token: string | null = null
  const sessions: string[] = []
  const key = secret()
  return {
    key,
    isKey: (given) => typeof given === 'string' && same(given, key),
    newToken() {
      token = secret()
      return token
    },
    exchange(given) {
      if (token === null || !same(given, token)) return null
      token = null
      const session = secret()
      sessions.push(session)
      return session
    },
    holds(header) {
      const values = (header ?? '').split(';').map((pair) => pair.trim())
      const start = `${cookieName()}=`
      return values.some((v) => v.startsWith(start) && sessions.some((s) => same(v.slice(start.length), s)))
    },
    cookieFor: (session) => `${cookieName()}=${session}; Path=/; HttpOnly; SameSite=Strict`,
  }
}

const secret = () => randomBytes(32).toString('base64url')

/** Compares without telling by its time how much was right. */
function same(a: string, b: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest()
  return timingSafeEqual(digest(a), digest(b))
}
