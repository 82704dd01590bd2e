import { expect, test } from 'vitest'
import { sentence, shown, shownSpan } from './units.ts'

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

test('a bounded value bears its unit once', () => {
  expect(shownSpan(0.5, 1.5, 'kg', 'metric')).toBe('0.500 … 1.50\u202fkg')
  expect(shownSpan(3100, 17_400, 'A', 'metric')).toBe('3100\u202fA … 17.4\u202fkA')
})
