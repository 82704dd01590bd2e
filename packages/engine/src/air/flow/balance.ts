import { Fault } from '../../kernel/index.ts'
import { powerLaw } from '../surface/roots.ts'
import { LINEAR_BELOW_PA } from './holes.ts'

/**
 * Ways for air between one room and the outside, as the balance of an hour sees them. The caller makes it once (`flowPaths`), writes drives and
 * coefficients into it each step, and reads the flows; nothing else is allocated. The first `holesCount` follow the square root of the
 * pressure, the rest are cracks under one exponent.
 *
 * Drive of a path: pressure outside at it less what the inside would have there at inside floor pressure 0, that is
 * wind pressure − (ρ outside − ρ inside)·g·z. Its pressure difference is then drive − p, positive inward.
 * A fan is a hole whose drive is moved by its shut pressure (`fanDrivePa`, `fanCoefficientM3s`).
 */
export interface FlowPaths {
  readonly pathsCount: number
  readonly holesCount: number
  readonly drivePa: Float64Array
  /** Flow at 1 Pa, kg/s: inward with the density outside, outward with the density inside. */
  readonly inKgS: Float64Array
  readonly outKgS: Float64Array
  /** Answer: positive inward. */
  readonly flowKgS: Float64Array
  readonly law: (pressurePa: number) => number
  readonly linearRatio: number
  readonly exponentRatio: number
}

const HOLE_LINEAR = 1 / Math.sqrt(LINEAR_BELOW_PA)

/** @throws Fault `air/paths-range` */
export function flowPaths(holesCount: number, cracksCount: number, exponentRatio: number): FlowPaths {
  const pathsCount = holesCount + cracksCount
  if (!(holesCount >= 0 && cracksCount >= 0 && pathsCount > 0 && exponentRatio >= 0.5 && exponentRatio <= 1))
    throw new Fault('air/paths-range', { holesCount, cracksCount, exponentRatio })
  const law = powerLaw(exponentRatio)
  return {
    pathsCount,
    holesCount,
    drivePa: new Float64Array(pathsCount),
    inKgS: new Float64Array(pathsCount),
    outKgS: new Float64Array(pathsCount),
    flowKgS: new Float64Array(pathsCount),
    law,
    linearRatio: law(LINEAR_BELOW_PA) / LINEAR_BELOW_PA,
    exponentRatio,
  }
}

/** Of the last `netFlowKgS`: −d(net flow)/dp, kg/s·Pa, and all that moves, kg/s. A second pass over the paths would find them again. */
let lastSlope = 0
let lastGross = 0

/** Net flow inward at an inside pressure, kg/s; writes the flow of each path. Falls as the pressure rises. */
export function netFlowKgS(paths: FlowPaths, insidePa: number): number {
  const { pathsCount, holesCount, drivePa, inKgS, outKgS, flowKgS, law, linearRatio, exponentRatio } = paths
  let net = 0
  let slope = 0
  let gross = 0
  for (let i = 0; i < pathsCount; i++) {
    const dp = drivePa[i]! - insidePa
    const k = dp > 0 ? inKgS[i]! : outKgS[i]!
    const size = dp > 0 ? dp : -dp
    const hole = i < holesCount
    let flow: number
    if (size < LINEAR_BELOW_PA) {
      const linear = k * (hole ? HOLE_LINEAR : linearRatio)
      slope += linear
      flow = linear * dp
    } else {
      const through = k * (hole ? Math.sqrt(size) : law(size))
      slope += ((hole ? 0.5 : exponentRatio) * through) / size
      flow = dp > 0 ? through : -through
    }
    flowKgS[i] = flow
    net += flow
    gross += Math.abs(flow)
  }
  lastSlope = slope
  lastGross = gross
  return net
}

/** Halvings of the sure road: a drive of 1000 Pa comes down to its own last bits. */
const HALVINGS = 80

/**
 * Inside pressure at floor height at which as much air goes in as out, Pa, by halving between the lowest drive and the highest: it cannot
 * fail. The flows stand in `flowKgS`.
 */
export function balanceByHalvingPa(paths: FlowPaths): number {
  let low = paths.drivePa[0]!
  let high = low
  for (let i = 1; i < paths.pathsCount; i++) {
    const drive = paths.drivePa[i]!
    if (drive < low) low = drive
    if (drive > high) high = drive
  }
  for (let n = 0; n < HALVINGS; n++) {
    const middle = low + (high - low) / 2
    if (netFlowKgS(paths, middle) > 0) low = middle
    else high = middle
  }
  const found = low + (high - low) / 2
  netFlowKgS(paths, found)
  return found
}

/** Steps of the fast road: enough from any start (test on random openings). From the pressure of a quarter hour before three or four are used. */
export const BALANCE_STEPS = 60
/** What is left over of all that moves when the balance is struck, and the step of pressure that is none. */
const SETTLED_FRAC = 1e-12
const SETTLED_PA = 1e-12

/**
 * The same by Newton's step, held between what is known to lie below and above, halved where a step leaves that or gains too little. Starts at
 * `startPa`, say the pressure of the step before; ends after `steps`, or when 1e-12 of what moves is left over. Sums, products and roots only: the same path on every machine.
 * @throws Fault `air/paths-range` for a start that is not a number
 */
export function balancePa(paths: FlowPaths, startPa: number, steps: number = BALANCE_STEPS): number {
  if (Number.isNaN(startPa)) throw new Fault('air/paths-range', startPa)
  let low = paths.drivePa[0]!
  let high = low
  for (let i = 1; i < paths.pathsCount; i++) {
    const drive = paths.drivePa[i]!
    if (drive < low) low = drive
    if (drive > high) high = drive
  }
  let p = Math.min(Math.max(startPa, low), high)
  let width = high - low
  for (let n = 0; n < steps; n++) {
    const net = netFlowKgS(paths, p)
    if (Math.abs(net) <= SETTLED_FRAC * lastGross) return p
    if (net > 0) low = p
    else high = p
    const newton = lastSlope > 0 ? p + net / lastSlope : Number.NaN
    const move = Math.abs(newton - p)
    if (move < SETTLED_PA) {
      p = newton
      break
    }
    const next = newton > low && newton < high && move < width / 2 ? newton : low + (high - low) / 2
    width = Math.abs(next - p)
    p = next
  }
  netFlowKgS(paths, p)
  return p
}
