import { exp, Fault, log } from '../../kernel/index.ts'

/** A fan's curve at full speed: Δp = Δp₀·(1 − (Q/Q₀)²). */
export interface FanCurve {
  readonly freeFlowM3s: number
  readonly shutPa: number
}

/**
 * As a path of the pressure balance a fan is a hole whose drive is moved by its shut pressure: turned round, its curve is
 * Q = (Q₀/√Δp₀)·√(Δp₀ − Δp). This is its flow at 1 Pa, m³/s, at any speed. @throws Fault `air/fan-range`
 */
export function fanCoefficientM3s(of: FanCurve): number {
  if (!(of.freeFlowM3s > 0 && of.shutPa > 0)) throw new Fault('air/fan-range', of)
  return of.freeFlowM3s / Math.sqrt(of.shutPa)
}

/** What it adds to the drive of its path, Pa: −Δp₀·s² blowing out, +Δp₀·s² blowing in, s the share of full speed. Stopped it is a hole. */
export const fanDrivePa = (shutPa: number, speedFrac: number, blows: 'out' | 'in'): number =>
  (blows === 'out' ? -1 : 1) * shutPa * speedFrac * speedFrac

/** Flow against a pressure, m³/s; negative where the pressure beats it. @throws Fault `air/fan-range` */
export function fanFlowM3s(of: FanCurve, againstPa: number, speedFrac: number): number {
  if (!(speedFrac >= 0) || Number.isNaN(againstPa)) throw new Fault('air/fan-range', { againstPa, speedFrac })
  const left = of.shutPa * speedFrac * speedFrac - againstPa
  return Math.sign(left) * fanCoefficientM3s(of) * Math.sqrt(Math.abs(left))
}

/** Flow, pressure and power at a share of the speed: s, s², s³. @source similarity laws of fans */
export const fanLaws = (
  speedFrac: number,
): { readonly flowRatio: number; readonly pressureRatio: number; readonly powerRatio: number } => ({
  flowRatio: speedFrac,
  pressureRatio: speedFrac * speedFrac,
  powerRatio: speedFrac * speedFrac * speedFrac,
})

/** Fan and natural flow together by rule, m³/s: √(Qf² + Qn²). The pressure balance is what the hours use. @source ASHRAE, unbalanced fan. Provenance: memory */
export const fanWithNaturalM3s = (fanM3s: number, naturalM3s: number): number =>
  Math.sqrt(fanM3s * fanM3s + naturalM3s * naturalM3s)

/** A direct-current motor on a fan: V = R·I + Ke·n, and Kt·I = Kf·n² with Kt = 60·Ke/2π. Speeds in turns a minute, as its sheet prints them. */
export interface FanMotor {
  readonly armatureOhm: number
  /** Volts per turn a minute. */
  readonly speedVPerRpm: number
  /** Newton metres per (turn a minute)². */
  readonly loadNmPerRpm2: number
}

/** A panel of cells at the light its sheet is for: I = Isc·G/G₀ − Isc·exp((V − Voc)/a). */
export interface FanPanel {
  readonly lightWPerM2: number
  readonly shortA: number
  readonly openV: number
  readonly bestW: number
  readonly bestV: number
}

const TURN = 60 / (2 * Math.PI)

/** Turns a minute of a motor on a voltage: the positive root of (R·Kf/Kt)·n² + Ke·n = V. @throws Fault `air/fan-range` */
export function motorRpm(motor: FanMotor, volts: number): number {
  const { armatureOhm, speedVPerRpm, loadNmPerRpm2 } = motor
  if (!(armatureOhm > 0 && speedVPerRpm > 0 && loadNmPerRpm2 > 0) || Number.isNaN(volts))
    throw new Fault('air/fan-range', { motor, volts })
  if (volts <= 0) return 0
  const drop = (armatureOhm * loadNmPerRpm2) / (TURN * speedVPerRpm)
  // The form that loses nothing where the load is small.
  return (2 * volts) / (speedVPerRpm + Math.sqrt(speedVPerRpm * speedVPerRpm + 4 * drop * volts))
}

/** Current of that motor, A: Kf·n²/Kt. */
export function motorA(motor: FanMotor, rpm: number): number {
  return (motor.loadNmPerRpm2 * rpm * rpm) / (TURN * motor.speedVPerRpm)
}

/** Knee of a panel's curve, V, from its best point: (Vmp − Voc)/ln(1 − Imp/Isc). @throws Fault `air/fan-range` */
export function panelKneeV(panel: FanPanel): number {
  const bestA = panel.bestW / panel.bestV
  if (!(panel.shortA > bestA && bestA > 0 && panel.openV > panel.bestV)) throw new Fault('air/fan-range', panel)
  return (panel.bestV - panel.openV) / log(1 - bestA / panel.shortA)
}

/** Current of a panel at a voltage and a light, A. */
export const panelA = (panel: FanPanel, kneeV: number, volts: number, lightWPerM2: number): number =>
  panel.shortA * (lightWPerM2 / panel.lightWPerM2 - exp((volts - panel.openV) / kneeV))

/** Share of rated current below which a fan at rest stays at rest, where nothing better is known. @source common practice */
export const STALL_FRAC = 0.15

const HALVINGS = 60

/**
 * Volts, amperes and turns at which a panel drives a fan, by halving in volts: the panel gives less as they rise, the motor takes more.
 * No light, no turning; none either while the panel's short current is below what gets the fan going (`startA`).
 * @throws Fault `air/fan-range`
 */
export function solarFanAt(
  panel: FanPanel,
  motor: FanMotor,
  lightWPerM2: number,
  startA: number,
): { readonly voltageV: number; readonly currentA: number; readonly rpm: number } {
  if (!(lightWPerM2 >= 0 && startA >= 0)) throw new Fault('air/fan-range', { lightWPerM2, startA })
  const kneeV = panelKneeV(panel)
  const mostA = (panel.shortA * lightWPerM2) / panel.lightWPerM2
  if (mostA <= startA) return { voltageV: 0, currentA: 0, rpm: 0 }
  let low = 0
  let high = 2 * panel.openV
  for (let n = 0; n < HALVINGS; n++) {
    const volts = (low + high) / 2
    if (panelA(panel, kneeV, volts, lightWPerM2) > motorA(motor, motorRpm(motor, volts))) low = volts
    else high = volts
  }
  const volts = (low + high) / 2
  const rpm = motorRpm(motor, volts)
  return { voltageV: volts, currentA: motorA(motor, rpm), rpm }
}

/**
 * Share of full speed of a solar fan by light, at 0, 25, … 1200 W/m² on its panel, for loops: read with `speedAtFrac`. Full speed is that at
 * the panel's own light.
 */
export function solarSpeeds(panel: FanPanel, motor: FanMotor, startA: number): Float64Array {
  const full = solarFanAt(panel, motor, panel.lightWPerM2, startA).rpm
  if (!(full > 0)) throw new Fault('air/fan-range', { panel, startA })
  return Float64Array.from({ length: LIGHTS + 1 }, (_, i) => solarFanAt(panel, motor, i * LIGHT_STEP, startA).rpm / full)
}

const LIGHT_STEP = 25
const LIGHTS = 48

/** From such a list, straight between; beyond it the last. @throws Fault `air/fan-range` */
export function speedAtFrac(speeds: Float64Array, lightWPerM2: number): number {
  if (!(lightWPerM2 >= 0)) throw new Fault('air/fan-range', lightWPerM2)
  const at = Math.min(lightWPerM2 / LIGHT_STEP, LIGHTS)
  const low = Math.min(Math.floor(at), LIGHTS - 1)
  return speeds[low]! + (at - low) * (speeds[low + 1]! - speeds[low]!)
}
