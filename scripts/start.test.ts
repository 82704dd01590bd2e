import { spawn, spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'

const root = dirname(import.meta.dirname)

test('npm start -- --once writes the book and the lists of the example, says each question’s verdict and where the files lie, and ends with 0', () => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['scripts/start.mjs', '--once'], {
    cwd: root,
    encoding: 'utf8',
    timeout: 280_000,
  })
  expect(status, stderr).toBe(0)
  for (const question of ['needs', 'supply', 'circuits', 'reach', 'faults', 'fit', 'skin', 'air', 'haul', 'shop', 'dates'])
    expect(stdout).toMatch(new RegExp(`^${question} +(holds|tight|fails|unknown)`, 'm'))
  for (const question of ['place', 'papers', 'keep']) expect(stdout).toMatch(new RegExp(`^${question} +not built`, 'm'))
  const files = [...stdout.matchAll(/^ +(out\/\S+)$/gm)].map(([, path]) => path ?? '')
  expect(files.map((path) => path.replace(/^out\/[^.]+\./, '')).sort()).toEqual([
    'bill.csv',
    'book.pdf',
    'circuits.csv',
    'cords.csv',
    'cost.csv',
    'cuts.csv',
    'design.json',
    'findings.json',
    'hours.csv',
    'openings.csv',
    'panel.csv',
    'raceways.csv',
    'strut.csv',
    'vents.csv',
    'wires.csv',
  ])
  for (const path of files) expect(readFileSync(join(root, path)).length).toBeGreaterThan(100)
}, 300_000)

interface Started {
  readonly address: string
  readonly said: () => string
  readonly interrupt: () => Promise<number | null>
}

async function started(): Promise<Started> {
  const child = spawn(process.execPath, ['scripts/start.mjs'], { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] })
  const ended = new Promise<number | null>((resolve) => child.once('exit', (code) => resolve(code)))
  let said = ''
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk
      const found = /^The app: (http:\/\/127\.0\.0\.1:\d+\/)\n[\s\S]*^Ctrl-C ends it/m.exec(said)?.[1]
      if (found !== undefined) resolve(found)
    })
    child.once('exit', () => reject(new Error(`ended before it served: ${said}`)))
  })
  const interrupt = () => {
    child.kill('SIGINT')
    return ended
  }
  return { address, said: () => said, interrupt }
}

test('npm start serves the app at the address it prints, and ends with 0 when it is interrupted', async () => {
  const { address, interrupt } = await started()
  const page = await fetch(address)
  expect(page.status).toBe(200)
  expect(await page.text()).toContain('<script type="module"')
  expect(await interrupt()).toBe(0)
  await expect(fetch(address)).rejects.toThrow()
}, 240_000)

test('where another program has the usual port, npm start takes the next free one, prints it and says so', async () => {
  const first = await started()
  const second = await started()
  expect(Number(new URL(second.address).port)).toBeGreaterThan(Number(new URL(first.address).port))
  expect(second.said()).toContain('The usual address is taken.')
  for (const { address } of [first, second]) expect((await fetch(address)).status).toBe(200)
  for (const { interrupt } of [second, first]) expect(await interrupt()).toBe(0)
}, 240_000)

test('npm start says what it does not know', () => {
  const { status, stderr } = spawnSync(process.execPath, ['scripts/start.mjs', '--ones'], { cwd: root, encoding: 'utf8' })
  expect(status).toBe(2)
  expect(stderr).toContain('--ones')
})
