/** Draws the example that a first visit opens on, into `shipped/`, so that the page need not wait for the engine. Run by the build, before the bundler. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { createServer } from 'vite'
import { EXAMPLE } from './src/route.ts'

const folder = join(import.meta.dirname, 'shipped')
const server = await createServer({
  ...{ root: import.meta.dirname, configFile: false, logLevel: 'error', appType: 'custom' },
  server: { middlewareMode: true, hmr: false, ws: false, watch: null },
  optimizeDeps: { noDiscovery: true, include: [] },
})
const { shippedDrawing } = (await server.ssrLoadModule('/src/worker/shipped.ts')) as typeof import('./src/worker/shipped.ts')
const file = `${EXAMPLE}.yaml`
const text = readFileSync(join(import.meta.dirname, '../../examples', file), 'utf8')
mkdirSync(folder, { recursive: true })
writeFileSync(join(folder, `${EXAMPLE}.json`), JSON.stringify(shippedDrawing({ file, text })))
await server.close()
