import { expect, test } from 'vitest'
import { sentence, shown, shownSpan, shownTo } from './units.ts'

// NIST SP 811 (2008), Appendix B.8: 1 ft = 0.3048 m, 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf = 4.448222 N, 1 psf = 47.88026 Pa. Provenance: memory
test('lengths, masses, forces and pressures are read in US units at the edge', () => {
  expect(shown(30.48, 'm', 'us')).toBe('100\u202fft')
  expect(shown(25.4, 'mm', 'us')).toBe('1\u202fin')
  expect(shown(45.359237, 'kg', 'us')).toBe('100\u202flb')
  expect(shown(4.448222, 'kN', 'us')).toBe('1000\u202flbf')
  expect(shown(4.788026, 'kPa', 'us')).toBe('100\u202fpsf')
  expect(shown(-40, '°C', 'us')).toBe('−40\u202f°F')
})

test('volts, amperes and trade sizes stay as they are', () => {
  expect(shown(120, 'V', 'us')).toBe(shown(120, 'V', 'metric'))
  expect(shown('12 AWG', '', 'us')).toBe('12 AWG')
})

test('a sentence is read in US units, its other numbers untouched', () => {
  expect(sentence('Over the 28 m from pole some 1.13 % is lost; 200 A asked, 12 AWG.', 'us')).toBe(
    'Over the 91.9 ft from pole some 1.13 % is lost; 200 A asked, 12 AWG.',
  )
  expect(sentence('It is rated for 30\u202f480\u202fkg at -36 C; 2 mm² and 8 V/m stay.', 'us')).toBe(
    'It is rated for 67\u202f197\u202flb at −32.8 °F; 2 mm² and 8 V/m stay.',
  )
  expect(sentence('28 m', 'metric')).toBe('28 m')
})

// The gallon of 231 cubic inches and the foot a minute: NIST SP 811 (2008), Appendix B.8. Provenance: memory
test('water, wind, flows and differences of temperature are read in US units too', () => {
  expect(shown(3.785411784, 'l', 'us')).toBe('1\u202fgal')
  expect(shown(4.4704, 'm/s', 'us')).toBe('10\u202fmph')
  expect(shown(100, 'm³/h', 'us')).toBe('58.9\u202fcfm')
  expect(sentence('colder by 5 K in a wind of 2 m/s: 7.57 l fall', 'us')).toBe(
    'colder by 9 °F in a wind of 4.47 mph: 2.00 gal fall',
  )
  expect(shownTo(0, 12.3, '°C', 'us')).toBe('54\u202f°F')
  expect(shownTo(1, -0.04, '°C', 'metric')).toBe('0\u202f°C')
})

test('the first of two numbers that share a unit was left in metric', () => {
  expect(sentence('inside −12.5 … 31\u202f°C', 'us')).toBe('inside 9.50 … 87.8\u202f°F')
  expect(sentence('vents of 300 x 300 mm, 10 to 20 m', 'us')).toBe('vents of 11.8 x 11.8 in, 32.8 to 65.6 ft')
  expect(sentence('vent low 450 mm, high 1 900 mm', 'us')).toBe('vent low 17.7 in, high 74.8 in')
})

test('a bounded value bears its unit once', () => {
  expect(shownSpan(0.5, 1.5, 'kg', 'metric')).toBe('0.500 … 1.50\u202fkg')
  expect(shownSpan(3100, 17_400, 'A', 'metric')).toBe('3100\u202fA … 17.4\u202fkA')
})
