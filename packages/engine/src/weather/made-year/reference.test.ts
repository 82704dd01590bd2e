import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { rowsOf } from '../shelf.ts'
import { tables } from '../tables.generated.ts'

const reference = fileURLToPath(new URL('../../../../../../shared/reference/weather-generator-tables.yaml', import.meta.url))

interface Printed {
  readonly markov_daily_clearness_index: {
    readonly source: string
    readonly provenance: string
    readonly select_by_monthly_mean_kt_upper_bounds: readonly number[]
    readonly kt_min: readonly number[]
    readonly kt_max: readonly number[]
    readonly matrices: readonly (readonly (readonly number[])[])[]
  }
  readonly hourly_clearness_index_TAG: Readonly<Record<string, string>>
  readonly daily_temperature_radiation_residuals_WGEN: Readonly<Record<string, readonly (readonly number[])[]>>
  readonly diurnal_temperature_fourier_Erbs: Readonly<Record<string, string>>
  readonly diurnal_fraction_of_range_ASHRAE: {
    readonly hour_of_day: readonly number[]
    readonly fraction_below_max: readonly number[]
  }
}

/** Numbers in a line of text, in their order; powers, letters and names beside them left out. */
const numbersIn = (text: string): number[] =>
  [
    ...text
      .replaceAll(/\^\d/g, '')
      .replaceAll(/[a-z_]+\d*'?\*?/gi, ' ')
      .matchAll(/\d+\.?\d*/g),
  ].map(([n]) => Number(n))

describe.skipIf(!existsSync(reference))(
  'carried over from the reference tables of the generator (skipped by name where they are not beside the project)',
  () => {
    const printed = (existsSync(reference) ? parse(readFileSync(reference, 'utf8')) : {}) as Printed

    test('every chance of the ten matrices, their spans and borders, source and provenance', () => {
      const {
        matrices,
        kt_min,
        kt_max,
        select_by_monthly_mean_kt_upper_bounds: upper,
        source,
        provenance,
      } = printed.markov_daily_clearness_index
      expect(rowsOf('markov-clearness').map((row) => row.chances)).toEqual(matrices.flat())
      expect(rowsOf('markov-clearness-ranges').map((row) => [row.mean_below, row.kt_min, row.kt_max])).toEqual(
        kt_min.map((low, i) => [upper[i] ?? null, low, kt_max[i]]),
      )
      expect([tables['markov-clearness'].source, tables['markov-clearness'].provenance]).toEqual([source, provenance])
    })

    test('every number of the hourly clearness', () => {
      const tag = printed.hourly_clearness_index_TAG
      const ours = Object.fromEntries(
        rowsOf('hourly-clearness').map((row) => [row.symbol, (row.values as readonly number[]).map(Math.abs)]),
      )
      expect(ours.lambda).toEqual(numbersIn(tag.lambda!))
      expect(ours.eta).toEqual(numbersIn(tag.eta!))
      expect(ours.kappa).toEqual(numbersIn(tag.kappa!))
      expect(ours.A).toEqual(numbersIn(tag.A!))
      expect(ours.B).toEqual(numbersIn(tag.B!))
      expect(ours.phi).toEqual(numbersIn(tag.autocorrelation!))
      expect(ours.cap).toEqual(numbersIn(tag.clear_sky_cap!).filter((n) => n !== 12))
    })

    test('the four matrices of the residuals, and A and B follow from the correlations', () => {
      const theirs = printed.daily_temperature_radiation_residuals_WGEN
      const of = (name: string) =>
        rowsOf('daily-residuals')
          .filter((row) => row.matrix === name)
          .map((row) => row.values as readonly number[])
      for (const [name, key] of [
        ['A', 'A'],
        ['B', 'B'],
        ['M0', 'M0_lag0_correlation'],
        ['M1', 'M1_lag1_correlation'],
      ] as const)
        expect(of(name), name).toEqual(theirs[key])
      const [a, b, m0, m1] = [of('A'), of('B'), of('M0'), of('M1')]
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) {
          const product = (x: readonly (readonly number[])[], y: (k: number) => number) =>
            [0, 1, 2].reduce((sum, k) => sum + x[i]![k]! * y(k), 0)
          // A·M0 = M1, B·Bᵀ = M0 − A·M1ᵀ: to the three digits that are printed.
          expect(Math.abs(product(a, (k) => m0[k]![j]!) - m1[i]![j]!)).toBeLessThan(0.002)
          expect(Math.abs(product(b, (k) => b[j]![k]!) - (m0[i]![j]! - product(a, (k) => m1[j]![k]!)))).toBeLessThan(0.003)
        }
    })

    test('the shapes of the mean day and of the clear day', () => {
      const erbs = numbersIn(printed.diurnal_temperature_fourier_Erbs.formula!.split('=')[1]!)
      for (const row of rowsOf('mean-day-shape')) {
        expect(erbs).toContain(row.amplitude)
        expect(erbs).toContain(row.phase)
      }
      const { hour_of_day, fraction_below_max } = printed.diurnal_fraction_of_range_ASHRAE
      expect(rowsOf('clear-day-shape').map((row) => [row.hour, row.below_max])).toEqual(
        hour_of_day.map((h, i) => [h, fraction_below_max[i]]),
      )
    })
  },
)
