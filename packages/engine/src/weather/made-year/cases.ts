import { clearnessStep, matrixOf } from './clearness.ts'
import { hourlyClearness } from './hourly-light.ts'
import { meanDayShape } from './temperature.ts'

interface Given {
  readonly Kt: number
  readonly sin_elevation: readonly number[]
  readonly t_mean_C: number
  readonly amplitude_peak_to_peak_K: number
  readonly hours: readonly number[]
  readonly monthly_mean_Kt: number
  readonly today_Kt: number
  readonly random: number
}
type Worker = (given: Given) => Readonly<Record<string, unknown>>

/** Adapters of the published cases of the made year. */
export const madeYearCases: Readonly<Record<string, Worker>> = {
  'gen-01': (given) => {
    const hourly = hourlyClearness(given.Kt)
    return {
      mean: given.sin_elevation.map(hourly.meanFrac),
      sigma: given.sin_elevation.map(hourly.spreadFrac),
      phi: hourly.memoryRatio,
    }
  },
  'gen-02': (given) => ({
    t_C: given.hours.map((h) => given.t_mean_C + given.amplitude_peak_to_peak_K * meanDayShape(h)),
  }),
  'gen-03': (given) => {
    // The matrix is the one that the mean of the month chooses.
    const step = clearnessStep({ matrix: matrixOf(given.monthly_mean_Kt), todayFrac: given.today_Kt, random: given.random })
    return {
      today_class_from_1: step.todayClass,
      row_sum_before_normalising: step.rowSumFrac,
      next_class_from_1: step.nextClass,
      next_Kt_linear_inside_class: step.nextFrac,
    }
  },
}
