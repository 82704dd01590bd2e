import { describe, expect, test } from 'vitest'
import { headingRead, timeHeading, zoneInHeading } from './headings.ts'
import type { LoggerLog, LogMapping } from './log.ts'
import { readLogMapping } from './mapping.ts'
import { readLog } from './read-log.ts'
import { stampRead, stampText } from './stamps.ts'

const OFFSET = { utcOffsetH: -9 }
/** Two days of readings, `step` minutes apart, as lines below these headings. */
const listOf = (heads: string, step: number, cells: (i: number) => string, from = Date.UTC(2027, 1, 1), count = 2880 / step) =>
  [
    heads,
    ...Array.from(
      { length: count },
      (_, i) => `${new Date(from + i * step * 60_000).toISOString().slice(0, 16).replace('T', ' ')},${cells(i)}`,
    ),
  ].join('\n')

function logOf(text: string, mapping?: LogMapping): LoggerLog {
  const read = readLog(text, { ...OFFSET, mapping })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}
function mappingOf(text: string): LogMapping {
  const read = readLogMapping(`plugstead-log-columns: 1\n${text}`)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}
const codesOf = (text: string, mapping?: LogMapping) => {
  const read = readLog(text, { ...OFFSET, mapping })
  return read.ok ? [] : read.problems.map(({ code, line }) => [code, line])
}

describe('headings', () => {
  test.each([
    ['air high (°C)', 'air high', 'C'],
    ['Air, low [F]', 'air low', 'F'],
    ['Roof_C', 'roof', 'C'],
    ['roof underside (deg C)', 'roof', 'C'],
    ['wall temperature, °F', 'wall', 'F'],
    ['floor (\uFFFDC)', 'floor', 'C'],
    ['Panel board °C', 'panel', 'C'],
    ['RH (%)', 'humidity', '%'],
    ['relative humidity, % RH', 'humidity', '%'],
    ['inside (C)', 'air', 'C'],
    ['roof', 'roof', null],
  ])('%s is %s in %s', (head, place, unit) => expect(headingRead(head)).toMatchObject({ place, unit }))

  test.each(['outside air (C)', 'battery (V)', 'serial 1234', 'dew point, roof (C)', 'T1 (C)'])(
    '%s is no sensor inside the box',
    (head) => expect(headingRead(head)).toBeNull(),
  )

  test('a time, a day and their zone are known', () => {
    expect(['Date Time', 'timestamp', 'Time (UTC)', 'Date/Time, GMT-09:00', 'date', 'air (C)'].map(timeHeading)).toEqual([
      ...['time', 'time', 'time', 'time', 'date', null],
    ])
    expect(['Time (UTC)', 'Date/Time, GMT-09:00', 'Time, UTC+5:30', 'time'].map(zoneInHeading)).toEqual([0, -9, 5.5, null])
  })
})

describe('stamps', () => {
  test.each([
    ['2027-02-01 13:10', '2027-02-01 13:10', null],
    ['2027-02-01T13:10:00Z', '2027-02-01 13:10', 0],
    ['2027-02-01T13:10-09:00', '2027-02-01 13:10', -9],
    ['2027/2/1 1:10 PM', '2027-02-01 13:10', null],
    ['1.2.2027 13:10', '2027-02-01 13:10', null],
    ['01/02/27 12:05:00 AM', '2027-02-01 00:05', null],
    ['2027-02-01 24:00', '2027-02-02 00:00', null],
  ])('%s', (text, at, zoneH) => {
    const read = stampRead(text, 'day first')
    expect([stampText(read?.atMin ?? Number.NaN), read?.zoneH]).toEqual([at, zoneH])
  })

  test.each(['2027-02-30 10:00', '2027-02-01', '2027-02-01 24:10', '13:00', '2027-02-01 13:00 PM', 'logged', '2027-02-01 10:61'])(
    '%s is refused',
    (text) => expect(stampRead(text, 'day first')).toBeNull(),
  )
})

describe('a log', () => {
  test('is read in °C and fractions, at the clock of the place', () => {
    const text = listOf('Time (UTC),roof (F),RH (%)', 10, (i) => `${i % 2 === 0 ? 50 : ''},${i % 3}0`)
    const log = logOf(text)
    expect(log.stepMin).toBe(10)
    expect(stampText(log.atMin[0] as number)).toBe('2027-01-31 15:00')
    expect(log.values[0]?.slice(0, 2)).toEqual(Float64Array.of(10, Number.NaN))
    expect(log.values[1]?.[2]).toBeCloseTo(0.2, 12)
    expect(log.sensors.map(({ name, place }) => [name, place])).toEqual([
      ['roof (F)', 'roof'],
      ['RH (%)', 'humidity'],
    ])
    expect(log.notes).toContain('Its clock is as the heading of the time says.')
    expect(log.notes).toContain('roof (F): 144 of 288 readings missing.')
  })

  test('with semicolons, decimal commas, a title above and days with dots is the same as one with commas and points', () => {
    const points = listOf('time,air (C)', 60, (i) => `${i / 10}`)
    const commas = `Logger 12\n\n${listOf('time;air (C)', 60, (i) => `${i / 10}`).replace(
      /^(\d+)-(\d+)-(\d+) (\S+),(.*)$/gm,
      (_, y, m, d, t, v) => `${d}.${m}.${y} ${t};${v.replace('.', ',')}`,
    )}`
    expect(logOf(commas).values).toEqual(logOf(points).values)
    expect(logOf(commas).atMin).toEqual(logOf(points).atMin)
  })

  test('with the day in a column of its own is the same', () => {
    const together = listOf('time,air (C)', 30, (i) => `${i}`)
    const apart = together.replace('time', 'date,time').replace(/^(\d\S+) /gm, '$1,')
    expect(logOf(apart)).toEqual(logOf(together))
  })

  test('days with the year last are read when one of them leaves no choice, and refused when none does', () => {
    const us = (count: number) =>
      [
        'time,air (C)',
        ...Array.from(
          { length: count * 24 },
          (_, i) => `02/${String(1 + Math.floor(i / 24)).padStart(2, '0')}/2027 ${i % 24}:00,5`,
        ),
      ].join('\n')
    expect(stampText(logOf(us(14)).atMin.at(-1) as number)).toBe('2027-02-14 23:00')
    expect(codesOf(us(2))).toEqual([['log/day-order', 2]])
    expect(stampText(logOf(us(2), mappingOf('time: {dates: month first}')).atMin[0] as number)).toBe('2027-02-01 00:00')
  })

  test('gaps are told and left out', () => {
    const lines = listOf('time,air (C)', 10, () => '5').split('\n')
    const log = logOf([...lines.slice(0, 50), ...lines.slice(80)].join('\n'))
    expect(log.atMin).toHaveLength(258)
    expect(log.notes.find((note) => note.startsWith('1 gaps'))).toContain('5.0 h')
  })

  test('an hour that is missing on a spring night is told as what summer time does', () => {
    const lines = listOf('time,air (C)', 10, () => '5', Date.UTC(2027, 2, 14)).split('\n')
    const log = logOf([...lines.slice(0, 13), ...lines.slice(19)].join('\n'))
    expect(log.notes.join(' ')).toContain('clocks are put forward')
  })

  test('a stamp at the end of what a row is a mean of is moved to its middle', () => {
    const text = listOf('time,air (C)', 30, () => '5')
    expect((logOf(text).atMin[0] as number) - (logOf(text, mappingOf('time: {stamp: end}')).atMin[0] as number)).toBe(15)
  })

  test('a mapping names columns, units, accuracy, clock and the numbers that stand for nothing', () => {
    const text = listOf('stamp,T1,T2', 10, (i) => `${i === 3 ? -999 : 41},7`)
    const log = logOf(
      text,
      mappingOf(
        'time: {column: stamp, clock: -5}\nmissing: [-999]\nsensors:\n  - {column: T1, place: roof, unit: F, accuracy: 0.2 K}\n  - {column: T2, place: air, unit: C, name: middle}\n',
      ),
    )
    expect(log.sensors).toEqual([
      { name: 'T1', place: 'roof', unit: 'F', accuracy: { value: 0.2, told: true } },
      { name: 'middle', place: 'air', unit: 'C', accuracy: { value: 0.5, told: false } },
    ])
    expect(log.values[0]?.slice(2, 4)).toEqual(Float64Array.of(5, Number.NaN))
    expect(stampText(log.atMin[0] as number)).toBe('2027-01-31 20:00')
  })
})

describe('a wrong file', () => {
  const good = listOf('time,air (C),roof (C)', 10, () => '5,6').split('\n')
  test.each([
    ['nothing', '\n\n', [['log/empty', undefined]]],
    ['a job', 'plugstead: 1\nneeds: {}', [['log/not-a-log', 1]]],
    ['JSON', '{"a": 1}', [['log/not-a-log', 1]]],
    ['two bytes a letter', 't\u0000i\u0000m\u0000e\u0000,\u0000', [['log/not-a-log', 1]]],
    ['no headings', '2027-01-01 00:00,5\n2027-01-01 00:10,6', [['log/no-heading', undefined]]],
    ['no unit', good.join('\n').replace('air (C)', 'air'), [['log/unit-unknown', 1]]],
    ['a unit of another kind', good.join('\n').replace('air (C)', 'air (mV)'), [['log/unit-wrong', 1]]],
    ['humidity in degrees', good.join('\n').replace('air (C)', 'humidity (C)'), [['log/unit-wrong', 1]]],
    ['a name twice', good.join('\n').replace('air (C)', 'roof (C)'), [['log/twice', 1]]],
    [
      'three bad lines',
      good.with(4, '2027-02-01 00:30,x,6').with(6, 'stopped,5,6').with(9, '2027-02-01 00:10,1,2').join('\n'),
      [
        ['log/number', 5],
        ['log/time', 7],
        ['log/time-back', 10],
      ],
    ],
    ['Kelvin', good.join('\n').replaceAll(',5,', ',278,'), [['log/range', 2]]],
    [
      'seconds apart',
      good
        .slice(0, 200)
        .map((line, i) =>
          i === 0
            ? line
            : `2027-02-01 00:${String(Math.floor(i / 6)).padStart(2, '0')}:${String((i % 6) * 10).padStart(2, '0')},5,6`,
        )
        .join('\n'),
      [['log/step', undefined]],
    ],
    ['too short', good.slice(0, 20).join('\n'), [['log/short', undefined]]],
  ] as const)('%s is refused with line, what was found, wanted, and how to mend it', (_, text, codes) => {
    const read = readLog(text, OFFSET)
    expect(codesOf(text)).toEqual(codes)
    for (const problem of read.ok ? [] : read.problems)
      for (const word of [problem.found, problem.wanted, problem.mend]) expect(word).toMatch(/\S{1,}/)
  })

  test('of many bad lines the first twenty are told, and how many more there are', () => {
    const read = readLog(good.map((line, i) => (i === 0 ? line : line.replace(',5,', ',x,'))).join('\n'), OFFSET)
    expect(read.ok ? [] : read.problems).toHaveLength(21)
    expect(read.ok ? '' : read.problems.at(-1)?.found).toContain('268 more')
  })

  test('2,000 mangled logs are read or refused, and nothing is thrown', () => {
    let s = 7
    const next = (n: number) => {
      s = (Math.imul(s, 1103515245) + 12345) >>> 0
      return (s >>> 8) % n
    }
    const text = good.slice(0, 160).join('\n')
    let read = 0
    for (let i = 0; i < 2000; i++) {
      let mangled = text
      for (let k = 0; k <= next(4); k++) {
        const at = next(mangled.length)
        const what = [',', '\n', '"', ';', '', 'x', '-', '\t', '9', '\u0000'][next(10)] as string
        mangled = mangled.slice(0, at) + what + mangled.slice(at + next(3))
      }
      const result = readLog(mangled, OFFSET)
      if (result.ok) {
        read += 1
        expect(result.value.atMin.every((t, n) => n === 0 || t > (result.value.atMin[n - 1] as number))).toBe(true)
      } else expect(result.problems.length).toBeGreaterThan(0)
    }
    expect(read).toBeGreaterThan(50)
  })
})

describe('a mapping', () => {
  test('that is wrong is refused with every line', () => {
    const read = readLogMapping(
      'plugstead-log-columns: 1\ntime: {colum: a, clock: noon}\nsensors:\n  - {column: T1, place: loft}\n  - {place: roof, accuracy: 3 %}\nmissing: [x]\n',
    )
    expect(read.ok ? [] : read.problems.map(({ line, path }) => [line, path])).toEqual([
      [2, 'time'],
      [2, 'time.clock'],
      [4, 'sensors[0].place'],
      [5, 'sensors[1].column'],
      [5, 'sensors[1].accuracy'],
      [6, 'missing'],
    ])
  })
  test('that is no YAML, or a list, is refused', () => {
    expect(readLogMapping('a: [').ok).toBe(false)
    expect(readLogMapping('- a').ok).toBe(false)
    expect(readLogMapping('').ok).toBe(false)
    const [none] = [readLogMapping('missing: [1]'), readLogMapping('plugstead-log-columns: 2')].map((read) =>
      read.ok ? [] : read.problems.map(({ path }) => path),
    )
    expect(none).toEqual(['plugstead-log-columns'])
  })
})
