/** Files of the built page, found by the path of a URL and nowhere else. */
import { readFile, realpath } from 'node:fs/promises'
import { extname, join, sep } from 'node:path'

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
}

export interface RendererFile {
  readonly bytes: Buffer
  readonly type: string
}

/** The file under `folder` for a URL's path (`/` is `/index.html`), or null where there is none or it leads outside. */
export async function rendererFile(folder: string, urlPath: string): Promise<RendererFile | null> {
  const inside = relativePath(urlPath)
  if (inside === null) return null
  const type = TYPES[extname(inside).toLowerCase()]
  if (type === undefined) return null
  try {
    const root = await realpath(folder)
    const path = await realpath(join(root, inside))
    // After links are followed the file must still lie in the folder.
    if (!path.startsWith(root + sep)) return null
    return { bytes: await readFile(path), type }
  } catch {
    return null
  }
}

function relativePath(urlPath: string): string | null {
  let decoded: string
  try {
    decoded = decodeURIComponent(urlPath)
  } catch {
    return null
  }
  if (!decoded.startsWith('/') || /[\\\0]/.test(decoded)) return null
  const parts = decoded.split('/').slice(1)
  if (decoded === '/') return 'index.html'
  if (parts.some((part) => part === '' || part.startsWith('.') || part.includes(':'))) return null
  return parts.join('/')
}
