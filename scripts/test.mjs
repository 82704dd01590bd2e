// `npm test`: installs what is missing, then runs every check there is and ends with `N passed, N failed`.
// Plain JavaScript for any Node from 18 on; the checks run on the pinned Node.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { install } from './install.mjs'
import { NO_RUNTIME, runtime } from './runtime.mjs'
import { countStories, countTests } from './test-report.mjs'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const trouble = install(root, 'full')
if (trouble !== null) stop(trouble)
const node = runtime(root)
if (node === null) stop(NO_RUNTIME)

// Checks that start `node` themselves find the pinned one first.
const env = { ...process.env, PATH: `${dirname(node)}${delimiter}${process.env.PATH ?? ''}`, NO_COLOR: '1', FORCE_COLOR: '0' }

const CHECKS = [
  { name: 'types', args: ['node_modules/typescript-7/bin/tsc', '-p', 'tsconfig.json', '--noEmit'] },
  { name: 'types of the app', args: ['node_modules/typescript-7/bin/tsc', '-p', 'packages/web/tsconfig.json', '--noEmit'] },
  {
    name: 'lint and format',
    args: ['node_modules/@biomejs/biome/bin/biome', 'check', '--max-diagnostics=40', '--diagnostic-level=error', '.'],
  },
  {
    name: 'boundaries',
    args: ['scripts/boundaries.ts'],
  },
  { name: 'dead code', args: ['node_modules/knip/bin/knip.js', '--no-progress'] },
  { name: 'tables agree with their YAML', args: ['scripts/tables.ts', '--check'], needs: 'scripts/tables.ts' },
  { name: 'schema agrees with the code', args: ['scripts/schema.ts', '--check'], needs: 'scripts/schema.ts' },
  { name: 'published cases agree with their YAML', args: ['scripts/cases.ts', '--check'] },
  { name: 'validation table is current', args: ['scripts/validation.ts', '--check'] },
]

let passed = 0
let failed = 0
const broken = []

for (const check of CHECKS) {
  if (check.needs !== undefined && !existsSync(join(root, check.needs))) continue
  const started = Date.now()
  const run = spawnSync(node, check.args, {
    cwd: root,
    env,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    maxBuffer: 1 << 28,
  })
  const good = run.status === 0
  count(good ? 1 : 0, good ? 0 : 1)
  console.log(`${good ? 'passed' : 'FAILED'}  ${check.name}  ${seconds(started)}`)
  if (good) continue
  broken.push(check.name)
  console.log(indented(run.stdout ?? ''), indented(run.stderr ?? ''), run.error?.message ?? '')
}

console.log('running tests …')
const started = Date.now()
const folder = mkdtempSync(join(tmpdir(), 'plugstead-test-'))
const report = join(folder, 'report.json')
spawnSync(node, ['node_modules/vitest/vitest.mjs', 'run', '--reporter=json', `--outputFile=${report}`], {
  cwd: root,
  env,
  stdio: ['ignore', 'ignore', 'inherit'],
})
const tests = existsSync(report) ? countTests(JSON.parse(readFileSync(report, 'utf8')), root) : null
rmSync(folder, { recursive: true, force: true })
if (tests === null) {
  count(0, 1)
  broken.push('unit tests did not run')
} else {
  count(tests.passed, tests.failed)
  console.log(
    `${tests.failed === 0 ? 'passed' : 'FAILED'}  ${tests.passed} of ${tests.passed + tests.failed} tests  ${seconds(started)}`,
  )
  for (const { name, message } of tests.failures) console.log(`\nFAILED  ${name}\n${indented(message)}`)
  for (const name of tests.skipped) console.log(`skipped  ${name}`)
  if (tests.failed > 0) broken.push('tests')
  if (tests.passed === 0) {
    count(0, 1)
    broken.push('no test ran')
  }
}

console.log('running the app in a browser …')
const web = Date.now()
const stories = spawnSync(node, ['packages/web/test/run.ts'], {
  cwd: root,
  env,
  encoding: 'utf8',
  stdio: ['ignore', 'pipe', 'pipe'],
  maxBuffer: 1 << 28,
})
const told = countStories(stories.stdout ?? '')
if (told === null) {
  count(0, 1)
  broken.push('the browser did not run')
  console.log(indented(stories.stdout ?? ''), indented(stories.stderr ?? ''))
} else {
  count(told.passed, told.failed)
  console.log(
    `${told.failed === 0 ? 'passed' : 'FAILED'}  ${told.passed} of ${told.passed + told.failed} stories in a browser  ${seconds(web)}`,
  )
  for (const failure of told.failures) console.log(`\n${failure}`)
  for (const line of (stories.stdout ?? '').split('\n').filter((one) => one.endsWith(', at the second try'))) console.log(line)
  if (told.failed > 0) broken.push('stories in a browser')
}

if (broken.length > 0) console.log(`\nFailed: ${broken.join(', ')}`)
console.log(`${passed} passed, ${failed} failed`)
process.exit(failed === 0 ? 0 : 1)

function count(good, bad) {
  passed += good
  failed += bad
}

function seconds(since) {
  return `${((Date.now() - since) / 1000).toFixed(1)} s`
}

function indented(text) {
  return text
    .trimEnd()
    .split('\n')
    .slice(0, 200)
    .map((line) => (line === '' ? line : `    ${line}`))
    .join('\n')
}

function stop(said) {
  console.error(said)
  console.log('0 passed, 1 failed')
  process.exit(1)
}
