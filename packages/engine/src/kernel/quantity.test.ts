import { expect, test } from 'vitest'
import { type Dimension, parseMoney, parseQuantity, parseSeries, parseSize } from './index.ts'

const value = (text: string, dimension: Dimension) => {
  const read = parseQuantity(text, dimension)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value.value
}
const problem = (text: string, dimension: Dimension) => {
  const read = parseQuantity(text, dimension)
  if (read.ok) throw new Error(`“${text}” was read as ${read.value.value}`)
  return read.problems[0]!
}

// Factors: NIST SP 811 (2008), Appendix B.8, recalled (provenance: memory); the foot, inch and pound are exact by definition.
test.each([
  ['30 m', 'length', 30],
  ['125 ft', 'length', 38.1],
  ['6 ft 4 in', 'length', 1.9304],
  ['3 1/2 in', 'length', 0.0889],
  ['1.2 km', 'length', 1200],
  ['900mm', 'length', 0.9],
  ['1500 W', 'power', 1500],
  ['3/4 hp', 'power', 559.27],
  ['1 1/2 hp', 'power', 1118.55],
  ['22 kW', 'power', 22000],
  ['75 kVA', 'apparent power', 75000],
  ['11 kV', 'voltage', 11000],
  ['17.4 kA', 'current', 17400],
  ['30 mA', 'current', 0.03],
  ['-31 C', 'temperature', -31],
  ['−31 °C', 'temperature', -31],
  ['-24 F', 'temperature', -31.11],
  ['212 F', 'temperature', 100],
  ['1.8 %', 'share', 0.018],
  ['200 psf', 'pressure', 9576.05],
  ['9.6 kPa', 'pressure', 9600],
  ['13 weeks', 'time', 7862400],
  ['36 months', 'stay', 36],
  ['2 years', 'stay', 24],
  ['5000 kWh', 'energy', 1.8e10],
  ['600 ohm m', 'resistivity', 600],
  ['0.2 mohm', 'resistance', 0.0002],
  ['46.2 deg', 'angle', 46.2],
  ['10 km/h', 'speed', 2.7778],
  ['180 cm2', 'area', 0.018],
  ['7500 lb', 'mass', 3401.94],
] as const)('“%s” is read as %s', (text, dimension, si) => {
  const read = value(text, dimension) as number
  expect(Math.abs(read - si)).toBeLessThanOrEqual(Math.abs(si) * 5e-5 + 1e-12)
})

test.each([
  ['12 AWG', '12 AWG'],
  ['1/0 AWG', '1/0 AWG'],
  ['250 MCM', '250 kcmil'],
  ['16 mm²', '16 mm2'],
  ['2.5mm2', '2.5 mm2'],
])('size “%s” has one name, %s', (text, name) => {
  expect(parseSize(text)).toEqual({ ok: true, value: name })
})

test('a size that is not made is refused with the sizes that are', () => {
  expect(parseSize('13 AWG')).toMatchObject({ ok: false, problems: [{ code: 'quantity/size-unknown' }] })
  expect(parseSize('17 mm2')).toMatchObject({ ok: false, problems: [{ wanted: expect.stringContaining('16, 25') }] })
  expect(parseSize('12')).toMatchObject({ ok: false, problems: [{ code: 'quantity/unit-missing' }] })
})

test('a bare number where a unit is needed is a problem', () => {
  expect(problem('30', 'length').code).toBe('quantity/unit-missing')
  expect(problem('30', 'length').mend).toContain('“30 m”')
})

test('a foreign unit is not converted in silence: accepted units and the conversion are said', () => {
  const p = problem('25 yd', 'length')
  expect(p.code).toBe('quantity/unit-unknown')
  expect(p.wanted).toContain('ft')
  expect(p.mend).toContain('22.86 m')
})

test('a watt is not a volt-ampere, and capitals carry meaning', () => {
  expect(problem('75 kW', 'apparent power').code).toBe('quantity/unit-unknown')
  expect(problem('75 KVA', 'apparent power').code).toBe('quantity/unit-unknown')
  expect(problem('12 C', 'difference').code).toBe('quantity/unit-unknown')
})

test.each([
  '1,500 W',
  '1.5e3 W',
  '0x10 W',
  '1_500 W',
  '.nan W',
  '.inf',
  'Infinity W',
  'NaN',
  '',
  '--3 W',
  '3/0 hp',
  '12 3 W',
  '1 500 W',
  '3/4 W',
  '99999999999999999999999 W',
])('“%s” is not a power', (text) => {
  expect(parseQuantity(text, 'power').ok).toBe(false)
})

test('a number with commas is answered with how to write it', () => {
  expect(problem('1,500 W', 'power').mend).toContain('without commas')
  expect(problem('1,5 kW', 'power').mend).toContain('decimal point')
})

test('twelve months are read with one unit behind them', () => {
  const read = parseSeries('-9.5 −8.8 4.1 F', 'temperature')
  expect(read.ok && read.value.map((v) => Number(v.toFixed(2)))).toEqual([-23.06, -22.67, -15.5])
  expect(parseSeries('1 2 3', 'temperature').ok).toBe(false)
  expect(parseSeries('1, 2 C', 'temperature').ok).toBe(false)
})

test('money needs its currency, and a price what it is per', () => {
  expect(parseMoney('18500 USD', null)).toMatchObject({ ok: true, value: { amount: 18500, currency: 'USD' } })
  expect(parseMoney('92 USD per h', 'h')).toMatchObject({ ok: true, value: { amount: 92 } })
  expect(parseMoney('0.112 USD/kWh', 'kWh')).toMatchObject({ ok: true, value: { amount: 0.112 } })
  expect(parseMoney('18,500 USD', null).ok).toBe(false)
  expect(parseMoney('92 USD', 'h').ok).toBe(false)
  expect(parseMoney('92 USD per h', null).ok).toBe(false)
  expect(parseMoney('92', null).ok).toBe(false)
})
