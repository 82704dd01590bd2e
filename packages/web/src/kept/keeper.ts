/**
 * The service worker: keeps the built app on the device, so that it starts without its server. A build is kept whole under its own name or not at
 * all; the page comes from the server while that answers, so a new build is seen at the next start. The build writes `kept` in front of this file
 * (`kept.ts` beside the bundler's settings).
 */
export {}

interface Kept {
  readonly build: string
  /** Path and hash of every file. */
  readonly files: readonly (readonly [string, string])[]
}
interface Client {
  postMessage(said: unknown): void
}
interface Extendable extends Event {
  waitUntil(work: Promise<unknown>): void
}
interface Fetching extends Extendable {
  readonly request: Request
  respondWith(answer: Promise<Response>): void
}
interface Keeper {
  readonly kept: Kept
  readonly location: Location
  readonly clients: { claim(): Promise<void>; matchAll(how: object): Promise<readonly Client[]> }
  skipWaiting(): Promise<void>
  addEventListener(name: 'install' | 'activate', heard: (event: Extendable) => void): void
  addEventListener(name: 'fetch', heard: (event: Fetching) => void): void
}

const keeper = self as unknown as Keeper
const { build, files } = keeper.kept
const NAME = 'plugstead.build.'
const MINE = NAME + build
/** Also of the build before. Not what the typesetter keeps itself. */
const PART = /^\/assets\/.*\.(?:js|css|svg|json|woff2)$/
const paths = new Set(files.map(([path]) => path))

keeper.addEventListener('install', (event) => event.waitUntil(keep().then(() => keeper.skipWaiting())))
keeper.addEventListener('activate', (event) => event.waitUntil(takeOver()))
keeper.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== keeper.location.origin) return
  if (request.mode === 'navigate' ? pathname === '/' : paths.has(pathname) && !pathname.startsWith('/assets/'))
    event.respondWith(freshOrKept(request, pathname))
  else if (PART.test(pathname)) event.respondWith(part(request))
})

/** The browser holds every file to its hash: one of another build is refused, and then nothing of this one is kept. */
async function keep(): Promise<void> {
  const store = await caches.open(MINE)
  try {
    await Promise.all(
      files.map(async ([path, integrity]) => {
        const came = await fetch(path, { integrity, cache: path.startsWith('/assets/') ? 'default' : 'no-store' })
        if (!came.ok) throw new Error(`${path}: ${came.status}`)
        await store.put(path, came)
      }),
    )
  } catch (thrown) {
    await caches.delete(MINE)
    throw thrown
  }
}

/** The build before stays for the pages of it that are still open; what is older goes. */
async function takeOver(): Promise<void> {
  const others = (await caches.keys()).filter((name) => name.startsWith(NAME) && name !== MINE)
  for (const name of others.slice(0, -1)) await caches.delete(name)
  await keeper.clients.claim()
  for (const page of await keeper.clients.matchAll({ type: 'window' })) page.postMessage({ kept: [...paths] })
}

async function freshOrKept(request: Request, path: string): Promise<Response> {
  try {
    return await fetch(request)
  } catch (thrown) {
    const had = await (await caches.open(MINE)).match(path)
    if (had === undefined) throw thrown
    const headers = new Headers(had.headers)
    headers.set('Server-Timing', 'kept')
    return new Response(had.body, { status: had.status, headers })
  }
}

/** Names of parts hold a hash of their content: whichever build kept it, it is the right one. */
async function part(request: Request): Promise<Response> {
  return (await (await caches.open(MINE)).match(request)) ?? (await caches.match(request)) ?? fetch(request)
}
