import { exp, log } from '../kernel/index.ts'

const KELVIN = 273.15

/** Saturation pressure, ice below 0 °C. Goes when the weather's own is there. */
export function saturationPa(atC: number): number {
  const T = atC + KELVIN
  return atC < 0
    ? exp(
        -5674.5359 / T +
          6.3925247 +
          T * (-0.009677843 + T * (6.2215701e-7 + T * (2.0747825e-9 + T * -9.484024e-13))) +
          4.1635019 * log(T),
      )
    : exp(-5800.2206 / T + 1.3914993 + T * (-0.048640239 + T * (0.000041764768 + T * -1.4452093e-8)) + 6.5459673 * log(T))
}
