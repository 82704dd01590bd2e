import type { Leg } from '../../job/index.ts'
import { abs, acos, add, type Complex, cx, Fault, polar, scale, sub } from '../../kernel/index.ts'
import type { System } from '../../rules/index.ts'
import type { BoxLoad } from '../staging/index.ts'

const DEG = Math.PI / 180

/** Voltage of each leg against the neutral (or the middle of the system), as angles stand in the trade. */
export function legVolts(system: Pick<System, 'kind' | 'lineLineV' | 'lineNeutralV'>): Readonly<Record<Leg, Complex>> {
  const n = system.lineNeutralV
  switch (system.kind) {
    case 'split':
      return { A: cx(n), B: cx(-n), C: cx(0) }
    case 'single':
      return { A: cx(n), B: cx(0), C: cx(0) }
    case 'wye':
      return { A: cx(n), B: polar(n, -120 * DEG), C: polar(n, 120 * DEG) }
    case 'delta':
      // The neutral stands in the middle of A–C; B is the high leg.
      return { A: cx(system.lineLineV / 2), B: cx(0, (system.lineLineV * Math.sqrt(3)) / 2), C: cx(-system.lineLineV / 2) }
  }
}

const toward = (v: Complex): Complex => {
  const size = abs(v)
  if (!(size > 0)) throw new Fault('needs/no-voltage', v)
  return scale(v, 1 / size)
}

const lagging = (pf: number): Complex => polar(1, -acos(Math.min(1, pf)))
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re })

/**
 * Current of each leg as it flows, A: the sum of phasors. Never above the sum of magnitudes; equal when all on it are line–neutral at one
 * power factor. Of a bounded power factor the middle is taken: this is shown beside the plain sum and sizes nothing.
 */
export function legPhasorA(
  loads: readonly BoxLoad[],
  system: Pick<System, 'kind' | 'lineLineV' | 'lineNeutralV'>,
): Readonly<Record<Leg, number>> {
  const volts = legVolts(system)
  const sum: Record<Leg, Complex> = { A: cx(0), B: cx(0), C: cx(0) }
  for (const load of loads) {
    const turn = lagging((load.powerFactorFrac.low + load.powerFactorFrac.high) / 2)
    const [first, second] = load.legs
    if (first === undefined) continue
    if (load.phases === 3 || load.legs.length === 3) {
      const middle = scale(
        load.legs.reduce((v, leg) => add(v, volts[leg]), cx(0)),
        1 / load.legs.length,
      )
      for (const leg of load.legs) sum[leg] = add(sum[leg], scale(times(toward(sub(volts[leg], middle)), turn), load.currentA))
    } else if (second !== undefined) {
      const along = scale(times(toward(sub(volts[first], volts[second])), turn), load.currentA)
      sum[first] = add(sum[first], along)
      sum[second] = sub(sum[second], along)
    } else sum[first] = add(sum[first], scale(times(toward(volts[first]), turn), load.currentA))
  }
  return { A: abs(sum.A), B: abs(sum.B), C: abs(sum.C) }
}
