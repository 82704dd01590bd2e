import { spawnSync } from 'node:child_process'
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
  for (const question of ['needs', 'supply', 'circuits', 'reach', 'faults', 'fit', 'skin', 'haul', 'shop', 'dates'])
    expect(stdout).toMatch(new RegExp(`^${question} +(holds|tight|fails|unknown)`, 'm'))
  for (const question of ['place', 'papers', 'money', 'keep']) expect(stdout).toMatch(new RegExp(`^${question} +not built`, 'm'))
  const files = [...stdout.matchAll(/^ +(out\/\S+)$/gm)].map(([, path]) => path ?? '')
  expect(files.map((path) => path.replace(/^out\/[^.]+\./, '')).sort()).toEqual([
    'bill.csv',
    'book.pdf',
    'circuits.csv',
    'cords.csv',
    'cuts.csv',
    'design.json',
    'findings.json',
    'hours.csv',
    'openings.csv',
    'panel.csv',
    'raceways.csv',
    'strut.csv',
    'wires.csv',
  ])
  for (const path of files) expect(readFileSync(join(root, path)).length).toBeGreaterThan(100)
}, 300_000)
