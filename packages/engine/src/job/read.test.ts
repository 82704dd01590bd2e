import { expect, test } from 'vitest'
import type { Problem } from '../kernel/index.ts'
import { checkBytes, LIMIT_BYTES, PROBLEMS, readJob } from './index.ts'

const HEAD = 'plugstead: 1\nrules: { set: us }\n'

function problems(text: string | Uint8Array): readonly Problem[] {
  const started = process.threadCpuUsage()
  const read = readJob(text, { file: 'job.yaml' })
  const spent = process.threadCpuUsage(started)
  expect((spent.user + spent.system) / 1e6, 'seconds of this thread: a busy machine does not count').toBeLessThan(2)
  if (read.ok) throw new Error('it was read')
  for (const p of read.problems) {
    expect(p.file).toBe('job.yaml')
    for (const words of [p.found, p.wanted, p.mend]) expect(words.length).toBeGreaterThan(0)
    expect(`${p.found}${p.wanted}${p.mend}`).not.toMatch(/undefined|\[object|\bat .*\.ts:\d/)
  }
  return read.problems
}
const codes = (text: string | Uint8Array) => problems(text).map((p) => p.code)
const only = (text: string | Uint8Array): Problem => {
  const all = problems(text)
  expect(all.map((p) => p.code)).toHaveLength(1)
  return all[0] as Problem
}

test.each(['', '   \n\n', '# a comment only\n', '---\n', '~\n'])('empty: %j', (text) =>
  expect(codes(text)).toEqual(['job/empty']),
)

test('bytes that are not text are refused with the place of the first', () => {
  expect(only(new Uint8Array([112, 108, 0, 1])).found).toContain('byte 2')
  const text = 'plugstead: 1\ntitle: A\n'
  for (const mark of ['\ufeff', ''])
    for (const bigEnd of [false, true]) {
      const view = new DataView(new ArrayBuffer((mark.length + text.length) * 2))
      for (const [i, letter] of [...`${mark}${text}`].entries()) view.setUint16(i * 2, letter.charCodeAt(0), !bigEnd)
      expect(only(new Uint8Array(view.buffer)).code, `${bigEnd} ${mark.length}`).toBe('job/two-byte-text')
    }
  expect(only(new Uint8Array([112, 0xff, 0xfe])).code).toBe('job/binary')
  expect(only(new Uint8Array([...new TextEncoder().encode('title: '), 0xe2, 0x82])).code).toBe('job/binary')
})

test('100 MB are refused by size, before they are looked at', () => {
  expect(only(new Uint8Array(100_000_000)).code).toBe('job/too-large')
  expect(checkBytes(new Uint8Array(LIMIT_BYTES + 1)).ok).toBe(false)
})

test.each([
  ['cut off in a flow map', `${HEAD}needs: { machines: [ { tag: A, power: 10 W`, 'job/not-yaml'],
  ['cut off in a quote', `${HEAD}title: "half a ti`, 'job/not-yaml'],
  ['cut off behind a colon', `${HEAD}needs:\n  stay:`, 'job/missing'],
  ['tabs', `${HEAD}needs:\n\tstay: 3 months\n`, 'job/tab'],
  ['brackets nested deep', `${HEAD}x: ${'['.repeat(50_000)}`, 'job/too-deep'],
  ['maps nested deep', '{"a":'.repeat(15_000), 'job/too-deep'],
  ['lists nested deep', `${HEAD}x:\n  ${'- '.repeat(40_000)}a`, 'job/too-deep'],
  ['indented deep', `${HEAD}${Array.from({ length: 400 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')}`, 'job/too-deep'],
  ['a second document', `${HEAD}---\n${HEAD}`, 'job/several-documents'],
  ['YAML 1.1', `%YAML 1.1\n---\n${HEAD}`, 'job/yaml-directive'],
  ['another program’s file', 'version: "3"\nservices: { web: { image: x } }\n', 'job/not-a-job'],
  ['a price list', 'item,supplier,price\nbreaker 20 A,Invented,12.40\n', 'job/list'],
  ['a list', '- a\n- b\n', 'job/not-a-job'],
  ['plain words', 'hello there', 'job/not-a-job'],
  ['too many values', `${HEAD}x: [${'1,'.repeat(31_000)}]`, 'job/too-many-values'],
] as const)('%s is refused for that', (_what, text, code) => expect(only(text).code).toBe(code))

test('an alias bomb is refused without being followed', () => {
  const bomb = [
    'a: &a [x,x,x,x,x,x,x,x,x]',
    ...'bcdefghi'.split('').map((c, i) => `${c}: &${c} [${Array(9).fill(`*${'abcdefgh'[i]}`).join(',')}]`),
  ].join('\n')
  expect(codes(`${HEAD}${bomb}\n`)).toContain('job/alias')
})

test('a later version is refused politely, whatever else it holds', () => {
  const p = only('plugstead: 7\nrules: { set: moon }\nnew-key: 1\n')
  expect(p).toMatchObject({ code: 'job/newer-version', line: 1 })
  expect(p.mend).toContain('was not changed')
})

test('duplicate keys and tags', () => {
  expect(only(`${HEAD}needs:\n  stay: 3 months\n  stay: 4 months\n`)).toMatchObject({ code: 'job/duplicate-key', line: 5 })
  const twice = `${HEAD}needs:\n  machines:\n    - { tag: G1-2C, count: 2 }\n    - { tag: G2C }\nboxes:\n  - { id: a }\n  - { id: a }\n`
  expect(problems(twice).map((p) => [p.code, p.line])).toEqual([
    ['job/tag-duplicate', 6],
    ['job/tag-duplicate', 9],
  ])
  expect(codes(`${HEAD}title: !!str x\n`)).toEqual(['job/yaml-tag'])
})

test('an unknown key is answered with the known one it is near to', () => {
  const all = problems(`${HEAD}needs:\n  machinse: []\nfacts:\n  site: { soill: x, elevatoin: 3 m, zzzz: 1 }\n`)
  expect(all.map((p) => [p.line, p.mend])).toEqual([
    [4, 'Did you mean “machines”?'],
    [6, 'Did you mean “soil”?'],
    [6, 'Did you mean “elevation”?'],
    [6, expect.stringContaining('comment')],
  ])
})

test('all problems come at once, each with line, path, found, wanted and mend', () => {
  const all = problems(`${HEAD}titel: x
needs:
  stay: 3
  machines:
    - tag: A
      power: 10 yd
      voltage: .inf
      kind: heeter
      count: 1.5
      cord: [-3 m, 25 yd]
      window: 10:30
      duty: 150 %
      days: 0x10
    - what: no tag
facts:
  supply:
    system: 120/240 V single phase
    offers: { kind: utility }
    tariff: { energy: 0.1 USD per kWh, fixed: 3 EUR per month }
`)
  const byLine = new Map(all.map((p) => [p.line, p.code]))
  expect(Object.fromEntries(byLine)).toEqual({
    3: 'job/unknown-key',
    5: 'job/unit-missing',
    8: 'quantity/unit-unknown',
    9: 'job/not-finite',
    10: 'job/not-a-choice',
    11: 'job/wrong-kind',
    12: 'quantity/unit-unknown',
    13: 'job/window',
    14: 'job/out-of-range',
    15: 'job/odd-number',
    16: 'job/missing',
    19: 'job/system-unknown',
    20: 'job/wrong-kind',
    21: 'job/currency-mixed',
  })
  expect(all.find((p) => p.line === 12 && p.code === 'quantity/unit-unknown')).toMatchObject({
    path: 'needs.machines[0].cord[1]',
    mend: expect.stringContaining('22.86 m'),
  })
  expect(all.find((p) => p.line === 12 && p.code === 'job/out-of-range')?.path).toBe('needs.machines[0].cord[0]')
  expect(all.find((p) => p.line === 10)?.mend).toBe('Did you mean “heater”?')
})

test('a line indented one blank too far is not glued to the text before it', () => {
  const p = only(`${HEAD}needs:\n  forbidden:\n    - no trench\n     - no noise\n`)
  expect(p).toMatchObject({ code: 'job/text-runs-on', line: 5 })
  expect(readJob(`${HEAD}story: >-\n  a\n  b\n`)).toMatchObject({ ok: true })
})

test('a pinned conductor is a size that is made, under its one name', () => {
  const pin = (value: string) => `${HEAD}choices: { cords.A.size: { value: ${value}, by: me, why: stock } }\n`
  expect(only(pin('13 AWG')).code).toBe('quantity/size-unknown')
  expect(only(pin('12')).code).toBe('quantity/unit-missing')
  expect(readJob(pin('12AWG'))).toMatchObject({ ok: true, value: { pins: [{ value: '12 AWG' }] } })
})

test('words that YAML 1.1 reads otherwise are read as text, or refused where a number is meant', () => {
  const read = readJob(`${HEAD}title: no\ninvented: yes\nneeds: { shifts: [{ name: off, start: 12:30 }] }\n`)
  expect(read).toMatchObject({ ok: true, value: { title: 'no', invented: true } })
  expect(only(`${HEAD}needs: { shifts: [{ name: a, start: 750 }] }\n`).code).toBe('job/clock')
  expect(only(`${HEAD}invented: 12:30\n`).code).toBe('job/not-a-choice')
  expect(only(`${HEAD}title: true\n`).code).toBe('job/wrong-kind')
  expect(only(`${HEAD}title: 2027\n`).mend).toContain('"2027"')
})

test.each([
  ['cord: 1,500 m', 'quantity/not-a-number'],
  ['cord: 25', 'job/unit-missing'],
  ['cord: -1 m', 'job/out-of-range'],
  ['cord: .nan', 'job/not-finite'],
  ['power: -.inf', 'job/not-finite'],
  ['power: -5 W', 'job/out-of-range'],
  ['count: 0', 'job/out-of-range'],
  ['count: 4.5', 'job/wrong-kind'],
  ['count: "4"', 'job/wrong-kind'],
  ['count: 010', 'job/odd-number'],
  ['phases: 2', 'job/not-a-choice'],
  ['power-factor: 1.2', 'job/out-of-range'],
  ['window: 25:00 to 26:00', 'job/window'],
  ['window: 24:30 to 3:00', 'job/window'],
  ['outlet: 5', 'job/wrong-kind'],
  ['motor: { shaft: 3/0 hp }', 'quantity/not-a-number'],
  ['motor: { code-letter: I }', 'job/not-a-choice'],
  ['element-plate: { power: 3000 W }', 'job/missing'],
  ['cord: [1 m, 2 m]', 'job/count-mismatch'],
  ['fed-by: nowhere', 'job/no-such'],
  ['shares-plug-of: [B]', 'job/no-such'],
  ['shares-plug-of: [A]', 'job/circle'],
  ['essential: off', 'job/not-a-choice'],
])('a machine with “%s” is refused: %s', (line, code) => {
  expect(codes(`${HEAD}needs:\n  machines:\n    - tag: A\n      ${line}\n`)).toContain(code)
})

test.each([
  ['attachments: [{ path: ../x.jpg, sha-256: 0 }]', ['job/attachment-path', 'job/wrong-kind']],
  ['attachments: [{ path: /etc/x, sha-256: 0 }]', ['job/attachment-path']],
  ['choices: { cords.A.size: 12 AWG }', ['job/wrong-kind']],
  ['choices: { cords A: { value: 1, by: x, why: y } }', ['job/wrong-kind']],
  ['choices: { a.b: { value: 1 } }', ['job/missing']],
  ['phases: [{ id: a, months: 3 to 1 }]', ['job/months']],
  ['phases: [{ id: a, months: 1 to 5 }, { id: b, months: 5 to 6 }]', ['job/phases-overlap']],
  ['boxes: [{ id: a, fed-from: { box: b, distance: 3 m } }, { id: b, fed-from: { box: a, distance: 3 m } }]', ['job/circle']],
  ['boxes: [{ id: a, fed-from: { box: c, distance: 3 m } }]', ['job/no-such']],
  ['facts: { climate: { mean-by-month: 1 2 3 C } }', ['job/count-mismatch']],
  ['needs: { needed-by: 1 November }', ['job/date']],
  ['needs: { needed-by: 2027-02-29 }', ['job/date']],
  ['needs: { money: { currency: dollars } }', ['job/out-of-range', 'job/wrong-kind']],
  ['assumed: [{ path: needs.stay, why: x }]', ['job/no-such']],
  ['? [a, b]\n: c', ['job/key-kind']],
  ['<<: { title: x }', ['job/unknown-key']],
  ['__proto__: { a: 1 }', ['job/key-kind']],
  ['constructor: 1', ['job/unknown-key']],
  ['rules: { set: us }', ['job/duplicate-key']],
  [
    `needs: { machines: [${Array.from({ length: 5 }, (_, i) => `{ tag: A${i}, count: 500 }`).join(', ')}] }`,
    ['job/too-many-plugs'],
  ],
] as const)('“%s” is refused', (line, expected) => {
  expect(codes(`${HEAD}${line}\n`)).toEqual(expect.arrayContaining([...expected]))
})

test('hostile sizes are answered within two seconds', () => {
  const fill = (unit: string): string => `${HEAD}x: ${unit.repeat(Math.floor((LIMIT_BYTES - 60) / unit.length))}`
  for (const unit of ['a: b\n', '[]', '}', '|\n', '&a ', '!a ', '- a: b\n', '"', '\\', '{a: b,']) problems(fill(unit))
  problems(`${HEAD}${Array.from({ length: 9_000 }, (_, i) => `k${i}: 1`).join('\n')}`)
  problems(
    `${HEAD}needs:\n  machines:\n${Array.from({ length: 900 }, (_, i) => `    - { tag: A${i % 800}, kind: heater, power: 1 W, voltage: 120 V, foo: 3, hours: 3 h, cord: 3 }`).join('\n')}\n`,
  )
  problems(`${HEAD}title: ${'a'.repeat(90_000)}\n`)
  problems(`${'#'.repeat(1000)}\n`.repeat(90))
})

test('every code has words, and codes are of the job', () => {
  for (const code of Object.keys(PROBLEMS)) expect(code).toMatch(/^job\/[a-z-]+$/)
})

test('a document in JSON, with CRLF, or with a mark of byte order reads the same', () => {
  const yaml = readJob(HEAD)
  expect(readJob('{"plugstead": 1, "rules": {"set": "us"}}')).toEqual(yaml)
  expect(readJob(HEAD.replaceAll('\n', '\r\n'))).toEqual(yaml)
  expect(readJob(`\uFEFF${HEAD}`)).toEqual(yaml)
  expect(readJob(new TextEncoder().encode(`\uFEFF${HEAD}`))).toEqual(yaml)
})

test('what is not told is taken and recorded, or missing and named: never silent', () => {
  const read = readJob(
    `${HEAD}needs: { machines: [{ tag: A, kind: charger, power: 500 W, voltage: 120 V }, { tag: B, kind: heater }] }\n`,
  )
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  const { plugs, missing, assumed } = read.value
  expect(plugs.map((p) => p.tag)).toEqual(['A'])
  expect(plugs[0]).toMatchObject({
    powerFactorFrac: { low: 0.6, high: 0.98, told: false },
    cordM: 30,
    hoursPerDay: 24,
    dutyFrac: 1,
  })
  expect(plugs[0]?.currentA).toBeCloseTo(500 / (120 * 0.6), 9)
  expect(missing?.map((m) => m.path)).toEqual(
    expect.arrayContaining([
      'needs.machines[1].power',
      'needs.machines[1].voltage',
      'needs.machines[0].outlet',
      'facts.supply.offers',
      'facts.site.elevation',
    ]),
  )
  expect(assumed.map((a) => a.path)).toEqual(
    expect.arrayContaining([
      'needs.machines[0].power-factor',
      'needs.machines[0].cord',
      'needs.machines[0].window',
      'needs.machines[0].hours',
      'needs.machines[0].days',
      'facts.supply.system',
      'needs.stay',
      'needs.growth',
      'boxes',
      'facts.site.soil.resistivity',
      'boxes[0].inside-hot',
    ]),
  )
  for (const a of assumed) expect(a.source).not.toBe('')
})

test('where a machine stands is read under its name, for both its cords; a name nobody bears is refused', () => {
  const rows = (places: string) =>
    `${HEAD}needs:\n  machines:\n    - { tag: G1-2C, count: 2, machine: G1-2, kind: heater, power: 1 kW, voltage: 120 V, outlet: 5-20R }\n  places: ${places}\nboxes: [{ id: b, door-faces: 210 deg }]\n`
  const read = readJob(rows('{ G2: { bearing: 75 deg } }'), { file: 'job.yaml' })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  expect(read.value.needs.bearingDeg).toEqual({ G2: 75 })
  expect(read.value.boxes[0]?.doorFacesDeg).toBe(210)
  expect(only(rows('{ G3: { bearing: 75 deg } }'))).toMatchObject({ code: 'job/no-such', path: 'needs.places.G3' })
  expect(only(rows('{ G2: { bearing: 400 deg } }')).code).toBe('job/out-of-range')
})
