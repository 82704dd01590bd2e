import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { expect, test } from 'vitest'

const home = dirname(import.meta.dirname)

function files(folder: string, pattern: RegExp): readonly string[] {
  return readdirSync(join(home, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && pattern.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
}

test('no page links to a page that is not there', () => {
  const pages = [
    ...files('docs', /\.md$/),
    ...['README.md', 'CHANGELOG.md'].map((name) => join(home, name)).filter((path) => existsSync(path)),
  ]
  expect(pages.length).toBeGreaterThan(3)
  const dead = pages.flatMap((page) =>
    [...readFileSync(page, 'utf8').matchAll(/\]\(([^)#\s]+)[^)]*\)/g)]
      .map(([, target]) => target ?? '')
      .filter((target) => !/^[a-z]+:/.test(target) && !existsSync(join(dirname(page), target)))
      .map((target) => `${relative(home, page)} → ${target}`),
  )
  expect(dead).toEqual([])
})

test('a page that the program or its tests name is there', () => {
  const sources = ['packages', 'scripts', 'bench']
    .flatMap((folder) => files(folder, /\.(ts|mjs)$/))
    .filter((path) => !path.includes('node_modules'))
  const named = sources.flatMap((path) =>
    [...readFileSync(path, 'utf8').matchAll(/\bdocs\/[\w/-]+\.md\b/g)].map(([page]) => ({ page, path: relative(home, path) })),
  )
  expect(named.length).toBeGreaterThan(0)
  expect(named.filter(({ page }) => !existsSync(join(home, page)))).toEqual([])
})

test('the dependencies page names every package at its pinned version', () => {
  const page = readFileSync(join(home, 'docs/dependencies.md'), 'utf8')
  const manifests = [
    'package.json',
    ...['engine', 'drawings', 'book', 'cli', 'web'].map((name) => `packages/${name}/package.json`),
  ]
  const all = manifests.flatMap((path) => {
    const { dependencies, devDependencies, optionalDependencies } = JSON.parse(readFileSync(join(home, path), 'utf8'))
    return Object.entries({ ...dependencies, ...devDependencies, ...optionalDependencies } as Record<string, string>)
  })
  for (const [name, version] of all.filter(([one]) => !one.startsWith('@plugstead/'))) {
    const pinned = version.replace(/^npm:.*@/, '')
    expect(pinned, name).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/)
    expect(
      page.split('\n').some((line) => line.includes(`\`${name}\``) && line.includes(pinned)),
      `${name} ${pinned}`,
    ).toBe(true)
  }
})

test('the findings page and the engine name the same codes', () => {
  const page = new Set(
    [...readFileSync(join(home, 'docs/findings.md'), 'utf8').matchAll(/^\| `([^`]+)` \|/gm)].map(([, code]) => code),
  )
  const sources = files('packages/engine/src', /\.ts$/).filter(
    (path) => !/\.(test|fixture|generated|tmp)\.ts$|\/(read-shop|shop-page)\.ts$/.test(path),
  )
  const used = new Set(
    sources.flatMap((path) => {
      const text = readFileSync(path, 'utf8').replace(/new Fault\(\s*'[^']+'/g, '')
      return [
        ...text.matchAll(
          /'((?:needs|supply|circuits|reach|faults|fit|skin|air|haul|shop|dates|money|keep)\/[a-z0-9-]*[a-z0-9])'/g,
        ),
      ].map(([, code]) => code)
    }),
  )
  // The checks of one circuit carry only their own word; the question stands before it when one of them does not hold.
  for (const path of sources.filter((one) => one.includes('/power/circuits/')))
    for (const [, what] of readFileSync(path, 'utf8').matchAll(/\bwhat: '([a-z-]+)'/g)) used.add(`circuits/${what}`)
  expect([...used].filter((code) => !page.has(code)).sort()).toEqual([])
  expect([...page].filter((code) => !used.has(code)).sort()).toEqual([])
})
