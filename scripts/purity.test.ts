import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { expect, test } from 'vitest'

const home = dirname(import.meta.dirname)

/** TypeScript of a folder that is not a test. */
function sources(folder: string): readonly { readonly path: string; readonly text: string }[] {
  return readdirSync(join(home, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /(?<!\.test)\.ts$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path: relative(home, path), text: withoutComments(readFileSync(path, 'utf8')) }))
}

const withoutComments = (text: string) => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '')

const engine = sources('packages/engine/src')
const found = (all: typeof engine, pattern: RegExp) => all.filter(({ text }) => pattern.test(text)).map(({ path }) => path)

/** Same input, same output: what would break that. */
const IMPURE: Readonly<Record<string, RegExp>> = {
  'the clock': /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b/,
  'unseeded chance': /\bMath\.random\b|\bcrypto\.(getRandomValues|randomUUID)\b/,
  'the machine': /\bprocess\.|\bglobalThis\.|\bfetch\(|\bsetTimeout\(|\bsetInterval\(|\bconsole\./,
  'functions whose last bit hangs on the release of the engine that runs them':
    /\bMath\.(a?sinh?|a?cosh?|a?tanh?|atan2|exp|expm1|log|log1p|log2|log10|cbrt|pow)\b/,
  'powers with another exponent than a small whole number, which hang on it too': /\*\* (?!\d{1,2}\b(?!\.\d))/,
  'the person’s locale': /\.toLocale\w*\(|\bIntl\./,
}

for (const [what, pattern] of Object.entries(IMPURE))
  test(`the engine does not look at ${what}`, () => {
    expect(engine.length).toBeGreaterThan(50)
    expect(found(engine, pattern)).toEqual([])
  })

test('nothing outside rules/ asks which rule set it is', () => {
  const asking = /\b(rules\.id|rules\.set|ruleSet\.id|\.rules\.set)\s*[!=]==?\s*['"]/
  const outside = [
    ...engine,
    ...sources('packages/drawings/src'),
    ...sources('packages/book/src'),
    ...sources('packages/cli/src'),
  ]
  expect(
    found(
      outside.filter(({ path }) => !path.startsWith('packages/engine/src/rules/')),
      asking,
    ),
  ).toEqual([])
})

test('these checks see what they look for', () => {
  const bad = [
    {
      path: 'x',
      text: "const now = Date.now()\nif (rules.id === 'us') a()\nMath.random(); Math.exp(1); x.toLocaleString(); process.exit(); x ** 0.5",
    },
  ]
  for (const pattern of Object.values(IMPURE)) expect(found(bad, pattern)).toEqual(['x'])
})
