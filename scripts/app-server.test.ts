import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { get } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { brotliCompressSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { fileAsked, HEADERS, serve } from './app-server.mjs'

let home = ''
let served: Awaited<ReturnType<typeof serve>>

beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'plugstead-serve-'))
  mkdirSync(join(home, 'app/assets'), { recursive: true })
  writeFileSync(join(home, 'secret.json'), '{}')
  writeFileSync(join(home, 'app/index.html'), '<!doctype html>')
  writeFileSync(join(home, 'app/assets/a-1.js'), 'export {}\n'.repeat(200))
  writeFileSync(join(home, 'app/.hidden.js'), '')
  writeFileSync(join(home, 'app/odd.exe'), '')
  served = await serve(join(home, 'app'), 0)
})

afterAll(async () => {
  await served.close()
  rmSync(home, { recursive: true, force: true })
})

/** As a program that writes its own request line would ask: nothing is tidied on the way. */
function asked(path: string, headers: Record<string, string> = {}, method = 'GET') {
  const { port } = new URL(served.address)
  return new Promise<{ readonly status: number; readonly headers: Record<string, unknown>; readonly length: number }>(
    (resolve, reject) => {
      get({ host: '127.0.0.1', port, path, method, headers }, (response) => {
        let length = 0
        response.on('data', (chunk: Buffer) => {
          length += chunk.length
        })
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, length }))
      }).on('error', reject)
    },
  )
}

test('the page and its parts come with their types and the strict headers', async () => {
  const page = await asked('/')
  expect([page.status, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8'])
  for (const [name, value] of Object.entries(HEADERS)) expect(page.headers[name.toLowerCase()], name).toBe(value)
  const part = await asked('/assets/a-1.js')
  expect([part.status, part.headers['content-type'], part.length]).toEqual([200, 'text/javascript; charset=utf-8', 2000])
  const squeezed = await asked('/assets/a-1.js', { 'accept-encoding': 'gzip' })
  expect([squeezed.headers['content-encoding'], squeezed.length < 200]).toEqual(['gzip', true])
})

test('a part that was squeezed when it was built is handed out so, to whoever takes it; the squeezed file itself has no address', async () => {
  const text = 'export const b = 1\n'.repeat(100)
  writeFileSync(join(home, 'app/assets/b-1.js'), text)
  writeFileSync(join(home, 'app/assets/b-1.js.br'), brotliCompressSync(text))
  const taken = await asked('/assets/b-1.js', { 'accept-encoding': 'gzip, deflate, br' })
  expect([taken.headers['content-encoding'], taken.length]).toEqual(['br', brotliCompressSync(text).length])
  expect((await asked('/assets/b-1.js', { 'accept-encoding': 'gzip' })).headers['content-encoding']).toBe('gzip')
  expect((await asked('/assets/b-1.js')).length).toBe(text.length)
  expect((await asked('/assets/b-1.js.br')).status).toBe(404)
})

test('the policy allows no inline script, no code from text and no other address', () => {
  const policy = HEADERS['Content-Security-Policy']!
  expect(policy).toContain("default-src 'none'")
  expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'")
  expect(policy).toContain("worker-src 'self'")
  expect(policy).not.toMatch(/'unsafe-inline'|'unsafe-eval'|https?:|\*/)
})

for (const path of [
  '/../secret.json',
  '/%2e%2e/secret.json',
  '/..%2fsecret.json',
  '/assets/../../secret.json',
  '/assets/%2e%2e%2f%2e%2e%2fsecret.json',
  '/..\\secret.json',
  '//secret.json/../../secret.json',
  '/.hidden.js',
  '/%00',
  '/%',
])
  test(`${path} leads nowhere`, async () => {
    const { status } = await asked(path)
    expect(status).toBeGreaterThanOrEqual(400)
    expect(fileAsked('/srv/app', path)?.startsWith('/srv/app/') ?? true).toBe(true)
  })

test('what is not there, of no known type, written to or asked under another name is refused', async () => {
  expect((await asked('/nothing.js')).status).toBe(404)
  expect((await asked('/odd.exe')).status).toBe(404)
  expect((await asked('/', {}, 'POST')).status).toBe(405)
  expect((await asked('/', { host: 'elsewhere.example' })).status).toBe(403)
})

test('a port that is taken makes it take another, and it says so', async () => {
  const port = Number(new URL(served.address).port)
  const second = await serve(join(home, 'app'), port)
  expect(second.usual).toBe(false)
  expect(second.address).not.toBe(served.address)
  await second.close()
})
