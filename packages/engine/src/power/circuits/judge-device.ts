import { judgeEnds, judgeUpper, put, source, step } from '../../kernel/index.ts'
import type { BoxView, CircuitView } from './box-view.ts'
import { type Check, lower, shown, upper, worded } from './check.ts'
import { startingA } from './device.ts'
import { isMotor } from './loads.ts'

const TIGHT_CURRENT = 0.1

/** Step 1 of the order of work: the device by what it feeds. */
export function deviceChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules } = view
  const { device } = c.circuit
  const motor = c.loads.length === 1 && c.loads[0]!.motor ? c.loads[0]! : null
  const checks: Check[] = []
  const grow = (ratingA: number | null) =>
    ratingA === null ? [] : [{ path: `circuits.${c.circuit.id}.device`, value: ratingA, words: `a ${ratingA} A device` }]
  if (motor !== null && isMotor(motor.plug)) {
    const plate = motor.plug.motor!
    const asked = rules.motorDeviceA({
      ...(plate.hp === undefined ? {} : { hp: plate.hp }),
      ...(plate.shaftW === undefined ? {} : { shaftW: plate.shaftW }),
      currentA: plate.fullLoadA ?? motor.plug.currentA,
      voltageV: motor.plug.voltageV,
      phases: motor.plug.phases,
    })
    const rests = asked.steps[0]?.rests ?? source('motor rules of the set', 'memory')
    checks.push(
      upper({
        what: 'device-need',
        title: 'largest device of a motor circuit',
        basis: 'code',
        rests,
        steps: asked.steps,
        demandA: device.ratingA,
        limitA: asked.value.deviceMaxA,
        symbols: ['In', 'In max'],
        said: `stands behind ${device.ratingA} A; the motor's device may be at most ${shown(asked.value.deviceMaxA)} A.`,
        mends: grow(rules.nextDeviceA(asked.value.conductorA, device.family).value),
      }),
      lower({
        what: 'device-holds',
        title: 'device against the motor running',
        basis: 'code',
        rests,
        steps: asked.steps,
        demandA: device.ratingA,
        limitA: motor.currentA,
        symbols: ['In', 'I'],
        said: `runs at ${shown(motor.currentA)} A on a ${device.ratingA} A device.`,
        mends: grow(rules.nextDeviceA(asked.value.conductorA, device.family).value),
      }),
    )
    checks.push(startCheck(view, c, startingA(motor.plug)))
  } else {
    const need = rules.deviceNeedA({ continuousA: c.continuousA, otherA: c.otherA })
    const rests = need.steps[0]?.rests ?? source('device by current', 'memory')
    const next = rules.nextDeviceA(need.value, device.family)
    checks.push(
      lower({
        what: 'device-need',
        title: 'device by current',
        basis: 'code',
        rests,
        steps: [...c.steps, ...need.steps, ...next.steps],
        demandA: device.ratingA,
        limitA: need.value,
        symbols: ['In', 'In min'],
        said: `needs a device of at least ${shown(need.value)} A and has ${device.ratingA} A.`,
        mends: grow(next.value),
      }),
    )
    const holds = rules.deviceHoldsA(device.ratingA)
    checks.push(
      upper({
        what: 'device-holds',
        title: 'steady current on the device',
        basis: 'code',
        rests: holds.steps[0]?.rests ?? rests,
        steps: [...c.steps, ...holds.steps],
        demandA: c.continuousA,
        limitA: holds.value,
        tightFrac: TIGHT_CURRENT,
        symbols: ['Ic', 'I max'],
        said: `keeps ${shown(c.continuousA)} A on a ${device.ratingA} A device for hours; ${shown(holds.value)} A may stay on it.`,
        mends: grow(next.value),
      }),
    )
  }
  checks.push(standardCheck(view, c), heatCheck(view, c))
  return checks
}

function startCheck(view: BoxView, c: CircuitView, startA: number): Check {
  const { device } = c.circuit
  const band = view.rules.tripBand(device.family, device.ratingA)
  const limitA = band.magneticFromRatio * device.ratingA
  return upper({
    what: 'start-holds',
    title: 'start of the motor against the magnetic part',
    basis: 'physics',
    rests: band.rests,
    steps: [
      step(
        'Im',
        'm·In, may trip from',
        [put('m', band.magneticFromRatio), put('In', device.ratingA, 'A')],
        limitA,
        'A',
        band.rests,
      ),
    ],
    demandA: startA,
    limitA,
    symbols: ['Ist', 'Im'],
    grave: false,
    said: `starts its motor at ${shown(startA)} A; its device may trip at once from ${shown(limitA)} A.`,
  })
}

function standardCheck(view: BoxView, c: CircuitView): Check {
  const { device } = c.circuit
  const next = view.rules.nextDeviceA(device.ratingA - 1e-6, device.family)
  const holds = next.value !== null && Math.abs(next.value - device.ratingA) < 1e-6
  return worded({
    what: 'device-rating',
    title: 'a rating that is made',
    basis: 'code',
    rests: next.steps[0]?.rests ?? source('standard ratings of the set', 'memory'),
    steps: next.steps,
    grave: false,
    verdict: holds ? 'holds' : 'fails',
    found: `${device.ratingA} A`,
    wanted: next.value === null ? 'a rating of the list' : `${next.value} A`,
    said: holds
      ? `has a standard rating, ${device.ratingA} A.`
      : `has a ${device.ratingA} A device, which is no standard rating of the set.`,
    mends:
      holds || next.value === null
        ? []
        : [{ path: `circuits.${c.circuit.id}.device`, value: next.value, words: `a ${next.value} A device` }],
  })
}

/** Thermal part in air hotter than it is calibrated for, share lost for each kelvin. @source 5–8 % each 10 K. Provenance: common practice */
const LOSS_PER_K = 0.008

/** A thermal trip in hot air holds less: judged at both ends of the inside temperature. */
function heatCheck(view: BoxView, c: CircuitView): Check {
  const { device } = c.circuit
  const band = view.rules.tripBand(device.family, device.ratingA)
  const at = (airC: number) =>
    device.ratingA * band.holdsRatio * Math.max(0, 1 - LOSS_PER_K * Math.max(0, airC - band.referenceC))
  const { low, high, told } = view.insideHotC
  const limitA = at(high)
  const rests = source('thermal trips carry 5 to 8 % less for 10 K of hotter air; 8 % taken', 'common practice')
  const verdict = judgeEnds(judgeUpper(c.currentA, at(low), 0), judgeUpper(c.currentA, limitA, 0))
  const check = upper({
    what: 'device-heat',
    title: 'device in the air of the box',
    basis: 'maker',
    rests,
    grave: false,
    steps: [
      step(
        'I(T)',
        'In·h·(1 − 0.008·(T − Tref)), not above In·h',
        [put('In', device.ratingA, 'A'), put('h', band.holdsRatio), put('T', high, '°C'), put('Tref', band.referenceC, '°C')],
        limitA,
        'A',
        rests,
      ),
    ],
    demandA: c.currentA,
    limitA,
    symbols: ['I', 'I(T)'],
    said: `carries ${shown(c.currentA)} A; in air of ${shown(high)} °C its ${device.ratingA} A device holds ${shown(limitA)} A.`,
    assumed: told ? [] : [`boxes.${view.box.box}.inside-hot`],
  })
  return { ...check, verdict, marginFrac: verdict === 'unknown' ? null : check.marginFrac }
}
