// Serves a folder of built files at a local address: nothing else, and nothing outside it. Plain JavaScript for any Node from 18 on.
import { readFile } from 'node:fs/promises'
import { createServer } from 'node:http'
import { extname, join, normalize, sep } from 'node:path'
import { gzipSync } from 'node:zlib'

/** Jobs are kept by the browser for one address: the same port each time, while it is free. */
const USUAL_PORT = 4127
const PORTS_TRIED = 20

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
  '.png': 'image/png',
}
/** Not the typesetter: squeezing its 28 MB takes longer than handing them over on one machine. */
const SQUEEZED = new Set(['.html', '.js', '.css', '.svg', '.json', '.webmanifest', '.ttf'])

const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ')

export const HEADERS = {
  'Content-Security-Policy': POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=()',
}

/** Path of the file that an address asks for, below `folder`; null for one that leads out of it or is no address at all. */
export function fileAsked(folder, address) {
  let path
  try {
    path = decodeURIComponent(address.split(/[?#]/)[0] ?? '')
  } catch {
    return null
  }
  if (!path.startsWith('/') || /[\0\\]/.test(path) || path.split('/').some((part) => part.startsWith('.'))) return null
  const file = normalize(join(folder, path.endsWith('/') ? `${path}index.html` : path))
  return file.startsWith(folder + sep) ? file : null
}

function handler(folder) {
  const squeezed = new Map()
  return async (request, response) => {
    const say = (status, words) => {
      response.writeHead(status, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' })
      response.end(request.method === 'HEAD' ? undefined : words)
    }
    // A page of another address that has itself resolved to this machine gets nothing.
    if (!/^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/.test(request.headers.host ?? '')) return say(403, 'Only this machine.\n')
    if (request.method !== 'GET' && request.method !== 'HEAD') return say(405, 'Only reading.\n')
    const file = fileAsked(folder, request.url ?? '')
    if (file === null) return say(400, 'No such address.\n')
    const ending = extname(file)
    const type = TYPES[ending]
    let data
    try {
      if (type === undefined) throw new Error('unknown type')
      data = await readFile(file)
    } catch {
      return say(404, 'Nothing here.\n')
    }
    const accepted = String(request.headers['accept-encoding'] ?? '')
    // Squeezed when it was built, where it was.
    const built = SQUEEZED.has(ending) && /\bbr\b/.test(accepted) ? await readFile(`${file}.br`).catch(() => null) : null
    const gzip = built === null && SQUEEZED.has(ending) && /\bgzip\b/.test(accepted)
    if (built !== null) data = built
    else if (gzip) {
      const known = squeezed.get(file)
      if (known === undefined || known.size !== data.length) squeezed.set(file, { size: data.length, data: gzipSync(data) })
      data = squeezed.get(file).data
    }
    response.writeHead(200, {
      ...HEADERS,
      'Content-Type': type,
      'Content-Length': data.length,
      // Built files bear a hash of their content in their names; the page itself is asked for each time.
      'Cache-Control': /\/assets\//.test(file) ? 'public, max-age=31536000, immutable' : 'no-cache',
      Vary: 'Accept-Encoding',
      ...(built !== null ? { 'Content-Encoding': 'br' } : gzip ? { 'Content-Encoding': 'gzip' } : {}),
    })
    response.end(request.method === 'HEAD' ? undefined : data)
  }
}

/** Serves `folder` on the usual port, else on one of those after it, else on any. `usual: false`: some other program had the usual one. */
export async function serve(folder, port = USUAL_PORT) {
  for (let n = 0; n <= PORTS_TRIED; n++) {
    const wanted = n === PORTS_TRIED || port === 0 ? 0 : port + n
    const server = createServer(handler(folder))
    const error = await new Promise((resolve) => {
      server.once('error', resolve)
      server.listen(wanted, '127.0.0.1', () => resolve(null))
    })
    if (error === null) {
      const at = server.address().port
      return { server, address: `http://127.0.0.1:${at}/`, usual: at === port, close: () => closed(server) }
    }
    if (error.code !== 'EADDRINUSE' && error.code !== 'EACCES') throw error
  }
  throw new Error('no free port')
}

function closed(server) {
  return new Promise((resolve) => {
    server.close(() => resolve())
    server.closeAllConnections?.()
  })
}
