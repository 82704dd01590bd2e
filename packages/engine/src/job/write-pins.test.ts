import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Pin, readJob, writePins } from './index.ts'

const folder = new URL('../../../../examples/', import.meta.url)
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const)
const pin = (path: string, value: Pin['value']): Pin => ({
  path,
  value,
  by: 'the owner',
  why: 'it lies in the shop: “12 AWG”, 30 m # left',
})

const written = (text: string, ...pins: Pin[]): string => {
  const out = writePins(text, pins)
  if (!out.ok) throw new Error(JSON.stringify(out.problems))
  return out.value
}
const pinsOf = (text: string) => {
  const read = readJob(text)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value.pins
}

test.each(examples)('%s keeps every byte outside the lines of the pins', (_name, text) => {
  const size = pin('service.rating', 200)
  const out = written(text, size, pin('supply.offer', 'pole'))
  expect(out.startsWith(text)).toBe(true)
  expect(out.slice(text.length).trim().split('\n')).toHaveLength(3)
  expect(pinsOf(out)).toEqual([size, pin('supply.offer', 'pole')])
})

test.each(examples)('%s: pinned again, only the value of that pin changes', (_name, text) => {
  const once = written(text, pin('service.rating', 200), pin('supply.offer', 'pole'))
  const again = written(once, pin('service.rating', 400))
  const changed = once
    .split('\n')
    .map((line, i) => [line, again.split('\n')[i]])
    .filter(([a, b]) => a !== b)
  expect(changed).toHaveLength(1)
  expect(changed[0]?.[1]).toBe(changed[0]?.[0]?.replace('200', '400'))
})

test('a block of choices keeps its comments, order and indentation', () => {
  const text =
    'plugstead: 1\nrules: {set: us}\nchoices: # decided with the owner\n    # the big one\n    service.rating:\n        value: 200 # A\n        by: owner\n        why: room to grow\n    supply.offer: {value: pole, by: owner, why: near} # near\n\n# the end\nneeds: {stay: 2 months}\n'
  const out = written(text, pin('transfer', 'neutral switched'), pin('service.rating', 400))
  const lines = out.split('\n')
  expect(lines.slice(0, 4)).toEqual(text.split('\n').slice(0, 4))
  expect(lines.find((l) => l.startsWith('    supply.offer'))).toBe('    supply.offer: {value: pole, by: owner, why: near} # near')
  expect(lines).toContain('# the end')
  expect(lines).toContain('needs: {stay: 2 months}')
  expect(pinsOf(out).map((p) => [p.path, p.value])).toEqual([
    ['service.rating', 400],
    ['supply.offer', 'pole'],
    ['transfer', 'neutral switched'],
  ])
})

test('a document in JSON stays JSON', () => {
  const text = '{"plugstead": 1, "rules": {"set": "us"}}'
  const out = written(text, pin('cords.G4C.size', '10 AWG'), pin('service.rating', 200))
  expect(Object.keys((JSON.parse(out) as { choices: object }).choices)).toEqual(['cords.G4C.size', 'service.rating'].slice(0, 2))
})

test.each([
  'plugstead: 1\r\nrules: {set: us}\r\n',
  'plugstead: 1\nrules: {set: us}',
  'plugstead: 1\nrules: {set: us}\nchoices: {}\n',
  'plugstead: 1\nrules: {set: us}\n...\n',
  'plugstead: 1\nrules: {set: us}\nchoices: {a.b: {value: 1, by: x, why: y}}\n',
])('odd ends of a file: %j', (text) => {
  const out = written(text, pin('service.rating', 200))
  expect(pinsOf(out).at(-1)).toEqual(pin('service.rating', 200))
  if (text.includes('\r\n')) expect(out.replaceAll('\r\n', '')).not.toContain('\n')
})

test('a document with problems is refused, not half written', () => {
  expect(writePins('plugstead: 1\nrules: {set: xx}\n', [pin('a.b', 1)])).toMatchObject({
    ok: false,
    problems: [{ code: 'job/not-a-choice' }],
  })
})

test('a size nobody makes comes back as a problem, and a size has one name', () => {
  const text = 'plugstead: 1\nrules: { set: us }\n'
  expect(writePins(text, [pin('cords.A.size', '13 AWG')])).toMatchObject({
    ok: false,
    problems: [{ code: 'quantity/size-unknown' }],
  })
  expect(pinsOf(written(text, pin('cords.A.size', '12AWG')))[0]?.value).toBe('12 AWG')
})

test('a path that is none is our own mistake', () => {
  expect(() => writePins('plugstead: 1\nrules: {set: us}\n', [pin('a b', 1)])).toThrow(
    expect.objectContaining({ code: 'job/pin-path' }),
  )
})
