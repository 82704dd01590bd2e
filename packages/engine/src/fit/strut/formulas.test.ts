import { describe, expect, test } from 'vitest'
import type { ShelfTable } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'
import { bracingFactor, patternFactor, slotFaceN } from './derate.ts'
import { deflectionM, LOAD_CASES, type LoadCase, leastStraps, loadAtDeflectionN, mostLoadN } from './formulas.ts'
import { nutLimits, nutUse } from './nuts.ts'
import { M_PER_IN, N_PER_LB, PA_PER_PSI, sectionOf } from './section.ts'

const ALLOW = 25e3 * PA_PER_PSI
const E = 29.5e6 * PA_PER_PSI
const CHANNEL = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'

/** Printed tables of four channels, with the section they were printed for and the factor of their punching. */
const PRINTED = [
  { table: 'strut-beam-12ga', S: 0.207, I: 0.188, factor: 1, load: 0.02, limit: 0.045, least: 5 },
  { table: 'strut-beam-14ga-small', S: 0.056, I: 0.026, factor: 0.95, load: 0.045, limit: 0.16, least: 5 },
  { table: 'strut-beam-14ga-medium', S: 0.086, I: 0.061, factor: 1, load: 0.035, limit: 0.05, least: 5 },
  { table: 'strut-beam-12ga-35-slots', S: 0.158, I: 0.123, factor: 0.9, load: 0.02, limit: 0.08, least: 5 },
] as const

describe.each(PRINTED)('the catalogue table $table', ({ table, S, I, factor, load, limit, least }) => {
  const rows = (tables[table] as ShelfTable).rows as readonly (readonly number[])[]
  const of = (spanIn: number) => ({
    spanM: spanIn * M_PER_IN,
    stressPa: ALLOW,
    sectionM3: S * M_PER_IN ** 3,
    elasticityPa: E,
    inertiaM4: I * M_PER_IN ** 4,
  })

  test.each(rows.map((row) => [row[0] as number, row] as const))(
    '%s in: load, deflection at it, loads at L/180, L/240, L/360',
    (spanIn, row) => {
      const mostLb = (mostLoadN(of(spanIn)) * factor) / N_PER_LB
      const printedLb = row[1] as number
      // Printed to 10 lb before the factor of the punching, so short steps count beside the share.
      expect(Math.abs(mostLb - printedLb), 'load').toBeLessThanOrEqual(Math.max(printedLb * load, least))
      const deflection = deflectionM({ ...of(spanIn), loadN: (printedLb / factor) * N_PER_LB }) / M_PER_IN
      expect(Math.abs(deflection - (row[2] as number)), 'deflection').toBeLessThanOrEqual(0.006 + (row[2] as number) * 0.02)
      ;[180, 240, 360].forEach((part, i) => {
        const lb = Math.min(printedLb, (loadAtDeflectionN({ ...of(spanIn), part }) * factor) / N_PER_LB)
        const theirs = row[3 + i] as number
        expect(Math.abs(lb - theirs), `L/${part}`).toBeLessThanOrEqual(Math.max(theirs * limit, least + 1))
      })
    },
  )
})

test('the metric table of the same channel: kilonewtons and millimetres', () => {
  const s = sectionOf(CHANNEL)
  for (const [spanMm, load, deflection, ...limits] of tables['strut-beam-12ga-mm'].rows) {
    const of = { spanM: spanMm / 1000, stressPa: ALLOW, sectionM3: s.sxM3, elasticityPa: E, inertiaM4: s.ixM4 }
    expect(Math.abs(mostLoadN(of) / 1000 - load)).toBeLessThanOrEqual(Math.max(0.06, load * 0.03))
    expect(deflectionM({ ...of, loadN: mostLoadN(of) }) * 1000).toBeGreaterThan(deflection * 0.95)
    expect(deflectionM({ ...of, loadN: mostLoadN(of) }) * 1000).toBeLessThan(deflection * 1.05)
    limits.forEach((theirs, i) => {
      const kN = Math.min(load, loadAtDeflectionN({ ...of, part: [180, 240, 360][i] as number }) / 1000)
      expect(Math.abs(kN - theirs), `${spanMm} L/${[180, 240, 360][i]}`).toBeLessThanOrEqual(Math.max(0.07, theirs * 0.03))
    })
  }
})

// Printed load tables of bars in steel and in glass fibre, and the design criteria printed for aluminium bars: table `beam-two-metals`.
describe('bars of other materials, a foot wide, on the printed loads', () => {
  const bar = (name: string) =>
    name.startsWith('steel 3/4')
      ? { S: (10.1 * 0.1875 * 0.75 ** 2) / 6, I: (10.1 * 0.1875 * 0.75 ** 3) / 12, stressPsi: 18e3, psi: 29e6 }
      : name.startsWith('steel 1')
        ? { S: (10.1 * 0.125) / 6, I: (10.1 * 0.125) / 12, stressPsi: 18e3, psi: 29e6 }
        : null
  const of = (b: { S: number; I: number; stressPsi: number; psi: number }, spanIn: number, at = false) => ({
    spanM: spanIn * M_PER_IN,
    stressPa: b.stressPsi * PA_PER_PSI,
    sectionM3: b.S * M_PER_IN ** 3,
    elasticityPa: b.psi * PA_PER_PSI,
    inertiaM4: b.I * M_PER_IN ** 4,
    ...(at ? { case: 'simple span, one load at mid-span' as const } : {}),
  })
  const rows = tables['beam-two-metals'].rows

  test.each(rows.filter((row) => row[0].startsWith('steel')))('%s on %s in', (name, spanIn, uniform, deflection, middle, at) => {
    const b = bar(name)!
    const lb = mostLoadN(of(b, spanIn)) / N_PER_LB
    expect(Math.abs(lb / (spanIn / 12) - uniform)).toBeLessThanOrEqual(1 + 0.005 * uniform)
    expect(deflectionM({ ...of(b, spanIn), loadN: mostLoadN(of(b, spanIn)) }) / M_PER_IN).toBeCloseTo(deflection, 2)
    expect(Math.abs(mostLoadN(of(b, spanIn, true)) / N_PER_LB - middle!)).toBeLessThanOrEqual(1 + 0.005 * middle!)
    expect(deflectionM({ ...of(b, spanIn, true), loadN: mostLoadN(of(b, spanIn, true)) }) / M_PER_IN).toBeCloseTo(at!, 2)
  })

  test('aluminium by its printed criteria: U = 8M/L², C = 4M/L, D in feet and inches, and 6063-T6 as the program takes it', () => {
    const own = sectionOf('aluminium 1-5/8 x 1-5/8 (41 x 41, 2.7 mm)')
    expect(own.stressPa / PA_PER_PSI).toBeCloseTo(12e3, 6)
    expect(own.elasticityPa / PA_PER_PSI).toBeCloseTo(10e6, 6)
    const b = { S: 0.3156, I: 0.1578, stressPsi: own.stressPa / PA_PER_PSI, psi: own.elasticityPa / PA_PER_PSI }
    for (const L of [2, 3, 4, 5]) {
      const M = (b.stressPsi * b.S) / 12
      const [U, C] = [(8 * M) / L ** 2, (4 * M) / L]
      expect(mostLoadN(of(b, 12 * L)) / N_PER_LB / L).toBeCloseTo(U, 6)
      expect(mostLoadN(of(b, 12 * L, true)) / N_PER_LB).toBeCloseTo(C, 6)
      const D = (5 * U * L * (L * 12) ** 3) / (384 * b.psi * b.I)
      expect(deflectionM({ ...of(b, 12 * L), loadN: U * L * N_PER_LB }) / M_PER_IN).toBeCloseTo(D, 9)
    }
  })

  test('glass fibre: one E fits every printed deflection', () => {
    const found = rows
      .filter((row) => row[0].startsWith('glass'))
      .map(([, spanIn, uniform, deflection]) => {
        const b = { S: 0.656, I: 0.326, stressPsi: 1, psi: 1e6 }
        const loadN = uniform * (spanIn / 12) * N_PER_LB
        const at = (d: number) => deflectionM({ ...of(b, spanIn), loadN }) / M_PER_IN / d
        return [at(deflection + 0.005), at(deflection - 0.005)] as const
      })
    expect(Math.max(...found.map((f) => f[0]))).toBeLessThan(Math.min(...found.map((f) => f[1])))
  })
})

test('aluminium channel: three times as far as steel under the same load, a third of its mass, less before it buckles', () => {
  const [steel, own] = [sectionOf(CHANNEL), sectionOf('aluminium 1-5/8 x 1-5/8 (41 x 41, 2.7 mm)')]
  // Metal framing catalogue: elastic modulus a third of steel's, deflection three times. Provenance: read
  expect(steel.elasticityPa / own.elasticityPa).toBeCloseTo(3, 0)
  const sag = (s: typeof own) => deflectionM({ loadN: 1000, spanM: 1.2, elasticityPa: s.elasticityPa, inertiaM4: s.ixM4 })
  expect(sag(own) / sag(steel)).toBeCloseTo(2.95, 2)
  // Densities 2700 and 7850 kg/m³.
  expect(own.massKgPerM / steel.massKgPerM).toBeCloseTo(2700 / 7850, 2)
  expect(slotFaceN(own, 1).value / slotFaceN(steel, 1).value).toBeCloseTo(10 / 29.5, 6)
  expect(bracingFactor(own, 1)!.value).toBeLessThan(bracingFactor(steel, 1)!.value)
})

test('the factors of other load cases are those of the table', () => {
  const uniform = { spanM: 1.3, stressPa: ALLOW, sectionM3: 3.39e-6, elasticityPa: E, inertiaM4: 7.8e-8 }
  const base = mostLoadN(uniform)
  const sag = deflectionM({ ...uniform, loadN: base })
  for (const [name, load, bend] of tables['strut-load-cases'].rows) {
    expect(Object.keys(LOAD_CASES)).toContain(name)
    const of = { ...uniform, case: name as LoadCase }
    expect(mostLoadN(of) / base, name).toBeCloseTo(load, 9)
    expect(deflectionM({ ...of, loadN: mostLoadN(of) }) / sag, name).toBeCloseTo(bend, 2)
  }
})

test('bracing and pattern never raise a load, and fall with length; beyond the table nobody says', () => {
  for (const name of ['14 ga 1-5/8 x 13/16 (41 x 21)', CHANNEL, '12 ga 1-5/8 x 1-3/8 (41 x 35)']) {
    const s = sectionOf(name)
    let last = 1
    for (let m = 0.1; m < 2.1; m += 0.05) {
      const value = bracingFactor(s, m)?.value ?? Number.NaN
      expect(value).toBeLessThanOrEqual(last + 1e-12)
      last = value
    }
  }
  expect(bracingFactor(sectionOf('14 ga 1-5/8 x 13/16 (41 x 21)'), 72 * M_PER_IN)?.value).toBeCloseTo(0.88, 9)
  expect(bracingFactor(sectionOf(CHANNEL), 3.06)).toBeNull()
  expect([patternFactor('solid').value, patternFactor('holes').value, patternFactor('slots').value]).toEqual([1, 0.95, 0.85])
})

test('a post: the printed rows, a line between them, less above them, and less for a lighter channel', () => {
  const heavy = sectionOf(CHANNEL)
  expect(slotFaceN(heavy, 72 * M_PER_IN).value / N_PER_LB).toBeCloseTo(2110, 6)
  expect(slotFaceN(heavy, 54 * M_PER_IN).value / N_PER_LB).toBeCloseTo((2800 + 2410) / 2, 6)
  expect(slotFaceN(heavy, 144 * M_PER_IN).value / N_PER_LB).toBeCloseTo(2110 / 4, 6)
  expect(slotFaceN(sectionOf('14 ga 1-5/8 x 1-5/8 (41 x 41, 1.9 mm)'), 1).value).toBeCloseTo(
    (slotFaceN(heavy, 1).value * 0.417) / 0.561,
    6,
  )
  expect(slotFaceN(sectionOf('12 ga back to back 1-5/8 x 3-1/4'), 1).value).toBe(slotFaceN(heavy, 1).value)
  expect(() => slotFaceN(heavy, 0)).toThrow('fit/strut-range')
})

test('the single 14 ga channel takes the section modulus of its back-to-back row, not the one printed', () => {
  expect(sectionOf('14 ga 1-5/8 x 1-5/8 (41 x 41, 1.9 mm)').sxM3 / M_PER_IN ** 3).toBeCloseTo(0.165, 9)
  expect(() => sectionOf('13 ga')).toThrow('fit/no-row')
})

test('nuts: half in the last inch, less in thinner channel, nothing in the thinnest; slip and pull add up', () => {
  const at = (gauge: number, inLastInch = false) => nutLimits({ bolt: '1/2 in', section: { gauge, metal: 'steel' }, inLastInch })
  expect((at(12)?.slipN ?? 0) / N_PER_LB).toBeCloseTo(1500, 6)
  expect((at(14)?.slipN ?? 0) / N_PER_LB).toBeCloseTo(1000, 6)
  expect((at(14)?.pullN ?? 0) / N_PER_LB).toBeCloseTo(1400, 6)
  expect(at(12, true)?.slipN).toBeCloseTo((at(12)?.slipN ?? 0) / 2, 9)
  expect(at(16)).toBeNull()
  expect(nutLimits({ bolt: '1/2 in', section: { gauge: 12, metal: 'aluminium' }, inLastInch: false })).toBeNull()
  expect(at(12)?.torqueNm).toBeCloseTo(67.8, 1)
  expect(nutUse({ slipN: 50, pullN: 30 }, { slipN: 100, pullN: 100 })).toBeCloseTo(0.8, 12)
  expect(() => nutUse({ slipN: Number.NaN, pullN: 0 }, { slipN: 1, pullN: 1 })).toThrow('fit/nut-range')
})

test('straps: never fewer than the spacing asks, and out of range is a fault', () => {
  for (let lengthM = 0.1; lengthM < 40; lengthM += 0.37) {
    const n = leastStraps({ lengthM, fromBoxM: 0.9144, everyM: 3.048 })
    expect((n - 1) * 3.048 + 2 * 0.9144).toBeGreaterThanOrEqual(lengthM - 1e-9)
    if (n > 1) expect((n - 2) * 3.048 + 2 * 0.9144).toBeLessThan(lengthM)
  }
  for (const bad of [{ lengthM: 0 }, { fromBoxM: 0 }, { everyM: Number.NaN }])
    expect(() => leastStraps({ lengthM: 3, fromBoxM: 0.9, everyM: 3, ...bad })).toThrow('fit/strap-range')
  expect(() => mostLoadN({ spanM: 0, stressPa: 1, sectionM3: 1 })).toThrow('fit/beam-range')
  expect(() => deflectionM({ loadN: -1, spanM: 1, elasticityPa: 1, inertiaM4: 1 })).toThrow('fit/beam-range')
  expect(() => loadAtDeflectionN({ part: 0, spanM: 1, elasticityPa: 1, inertiaM4: 1 })).toThrow('fit/beam-range')
})
