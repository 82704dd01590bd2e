import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { installed } from './install.mjs'
import { newEnough } from './runtime.mjs'

let root = ''
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'plugstead-install-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

const running = { 'node_modules/yaml': { integrity: 'y1' } }
const tools = { 'node_modules/vitest': { integrity: 'v1', dev: true } }
const others = { 'node_modules/only-elsewhere': { integrity: 'e1', optional: true } }

function write(path: string, value: unknown): void {
  mkdirSync(dirname(join(root, path)), { recursive: true })
  writeFileSync(join(root, path), JSON.stringify(value))
}

const lock = (packages: object) => write('package-lock.json', { packages: { '': {}, ...packages } })
const npmList = (packages: object) => write('node_modules/.package-lock.json', { packages })
const unpack = (...names: string[]) => {
  for (const name of names) write(`node_modules/${name}/package.json`, {})
}

test('a fresh clone has nothing', () => {
  lock({ ...running, ...tools })
  expect(installed(root)).toBe('missing')
})

test('a full tree is full, though packages for other machines are not there', () => {
  lock({ ...running, ...tools, ...others })
  npmList({ ...running, ...tools })
  unpack('yaml', 'vitest')
  expect(installed(root)).toBe('full')
})

test('a tree without the tools is enough for running only', () => {
  lock({ ...running, ...tools })
  npmList(running)
  unpack('yaml')
  expect(installed(root)).toBe('running')
})

test('a tree that was cut off has no list of npm, and counts as missing', () => {
  lock({ ...running, ...tools })
  unpack('yaml', 'vitest')
  expect(installed(root)).toBe('missing')
})

test('a package taken away by hand is missed', () => {
  lock(running)
  npmList(running)
  expect(installed(root)).toBe('missing')
})

test('a tree of an older lock counts as missing', () => {
  lock({ 'node_modules/yaml': { integrity: 'y2' } })
  npmList(running)
  unpack('yaml')
  expect(installed(root)).toBe('missing')
})

test('TypeScript is run as it is from Node 22.18 on', () => {
  expect(['18.19.0', '20.20.2', '22.17.1'].map(newEnough)).toEqual([false, false, false])
  expect(['22.18.0', '24.21.0', '26.0.0'].map(newEnough)).toEqual([true, true, true])
})

test('the first command installs nothing that only tests and checks use', () => {
  const { packages } = JSON.parse(readFileSync(join(import.meta.dirname, '../package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, { readonly dev?: boolean; readonly devDependencies?: Record<string, string> }>>
  }
  const runtime = new Set(
    Object.entries(packages)
      .filter(([place, entry]) => place.startsWith('node_modules/') && entry.dev !== true)
      .map(([place]) => place.slice('node_modules/'.length)),
  )
  // Two come with what running needs: what reads job documents, and types that the bundler names as its peer.
  const tools = Object.keys(packages['']?.devDependencies ?? {}).filter((name) => name !== 'yaml' && name !== '@types/node')
  expect(tools.length).toBeGreaterThan(10)
  expect(tools.filter((name) => runtime.has(name))).toEqual([])
})
