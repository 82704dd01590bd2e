import type { LoadKind } from '../../job/index.ts'
import { put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure, listAt, numberAt, word } from '../common/book.ts'
import { buildRulesOf, wirewayOf } from '../common/build.ts'
import { cordColdC } from '../common/cords.ts'
import { coloursOf, defaultsOf, outletNamed, outletsOf, sizesOf, systemsOf } from '../common/lists.ts'
import { ratingAtOrAboveA } from '../common/ratings.ts'
import { tripBand } from '../common/trip.ts'
import type { DropLimit, Overlay, RuleSet, TripDemand } from '../rule-set.ts'
import { conductorChecks, conductorFor, installed } from './ampacity.ts'
import { intlShockFor } from './shock.ts'
import {
  adiabaticK,
  cordAmpacityA,
  cordSizes,
  earthConductorFor,
  impedanceOhmPerM,
  protectiveFor,
  racewayFor,
  wireAreaMm2,
} from './wires.ts'

/** The rule set of the IEC 60364 family; countries are overlays on it. */
export function intl(book: Book, overlays: readonly Overlay[]): RuleSet {
  const sizes = sizesOf(book, 'intl-ampacity-pvc2', 'mm2', [
    'intl-ampacity-pvc3',
    'intl-ampacity-xlpe2',
    'intl-ampacity-xlpe3',
    'intl-conductor-r',
    'intl-conductor-diameter',
  ])
  const outlets = outletsOf(book)
  return {
    id: 'intl',
    title: 'IEC 60364, Low-voltage electrical installations',
    edition: 'IEC 60364',
    overlays,
    tables: book.tables,
    build: buildRulesOf(book),
    symbols: 'IEC 60617',
    frequencyHz: 50,
    systems: systemsOf(book),
    outlets,
    sizes,
    colours: coloursOf(book),
    defaults: defaultsOf(book),
    isContinuous: (hours) => ({
      value: true,
      steps: [
        step(
          'continuous',
          'every design current counts as continuous',
          [put('t', hours, 'h')],
          'yes',
          '',
          source('IEC 60364-4-43 433.1', 'memory'),
        ),
      ],
    }),
    deviceNeedA: (load) => {
      const value = load.continuousA + load.otherA
      return {
        value,
        steps: [
          step(
            'In',
            'In ≥ IB, no factor',
            [put('Ic', load.continuousA, 'A'), put('Io', load.otherA, 'A')],
            value,
            'A',
            source('IEC 60364-4-43 433.1', 'memory'),
          ),
        ],
      }
    },
    nextDeviceA: (neededA, family) => nextDeviceA(book, neededA, family),
    deviceHoldsA: (deviceA) => {
      const holds = figure(book, 'device-holds')
      return {
        value: holds.value * deviceA,
        steps: [step('I', 'In', [put('In', deviceA, 'A')], holds.value * deviceA, 'A', holds.rests)],
      }
    },
    motorDeviceA: (motor) => motorDeviceA(book, motor),
    motorFeederA: (tableA) => {
      const value = tableA.reduce((a, b) => a + b, 0)
      return {
        value,
        steps: [step('I', 'sum of the running currents', [], value, 'A', source('IEC 60364-4-43 433.1', 'memory'))],
      }
    },
    motorFeederDeviceA: (task) => {
      const needed = task.othersA.reduce((a, b) => a + b, task.largestDeviceA)
      return nextDeviceA(book, needed)
    },
    ampacityA: (size, task) => {
      const as = installed(book, size, task)
      return { value: as.value, steps: as.steps }
    },
    conductorChecks: (size, task) => conductorChecks(book, size, task),
    conductorFor: (task) => conductorFor(book, sizes, task),
    cordAmpacityA: (cord) => cordAmpacityA(book, cord),
    cordSizes: () => cordSizes(book),
    cordColdC: (type) => cordColdC(book, type),
    impedanceOhmPerM: (wire) => impedanceOhmPerM(book, wire),
    protectiveFor: (task) => protectiveFor(book, sizes, task.line),
    electrodeConductorFor: (task) => earthConductorFor(book, sizes, task),
    neutralA: (load) => neutralA(book, load),
    neutralCounts: (circuit) => neutralCounts(book, circuit),
    adiabaticK: (wire) => adiabaticK(book, wire),
    wireway: wirewayOf(book),
    wireAreaMm2: (wire) => wireAreaMm2(book, wire),
    racewayFor: (wires, kind) => racewayFor(book, wires, kind),
    shockFor: (task) => intlShockFor(book, task),
    dropLimit: (task) => dropLimit(book, task),
    tripDemand: (task) => tripDemand(book, task),
    tripBand: (family, deviceA) => tripBand(book, family, deviceA),
    voltageFactor: () => {
      const [max, min] = [figure(book, 'voltage-max'), figure(book, 'voltage-min')]
      return {
        value: { max: max.value, min: min.value },
        steps: [
          step('c max', 'highest fault', [], max.value, '', max.rests),
          step('c min', 'lowest fault', [], min.value, '', min.rests),
        ],
      }
    },
    interruptingStepsKA: (_system, main) =>
      listAt(book, 'interrupting', main ? 'intl MCCB Icu (IEC 60947-2)' : 'intl MCB Icn (IEC 60898)', 'steps').value,
    motorContributionRatio: () => {
      const ratio = figure(book, 'motor-contribution')
      return {
        value: ratio.value,
        steps: [step('m', 'times the running motors’ rated current, first half cycle', [], ratio.value, '', ratio.rests)],
      }
    },
    vehicleHeaterDemandW: () => null,
    demandA: (task) => {
      const value = task.continuousA + task.otherA + task.generalVA / task.lineV
      const puts = [
        put('Ic', task.continuousA, 'A'),
        put('Io', task.otherA, 'A'),
        put('S', task.generalVA, 'VA'),
        put('U', task.lineV, 'V'),
      ]
      return {
        value,
        steps: [
          step(
            'IB',
            'sum, no diversity without a schedule',
            puts,
            value,
            'A',
            source('IEC 60364-3, by list and schedule', 'memory'),
          ),
        ],
      }
    },
    transformerDevice: (task) => transformerDevice(book, task),
    loopLimitOhm: (task) => {
      const low = figure(book, 'voltage-min')
      const band = tripBand(book, task.family, task.deviceA)
      const value = (low.value * task.toEarthV) / (band.magneticSureRatio * task.deviceA)
      const puts = [
        put('c', low.value),
        put('Uo', task.toEarthV, 'V'),
        put('k', band.magneticSureRatio),
        put('In', task.deviceA, 'A'),
      ]
      return { value, steps: [step('Zs', 'c·Uo/(k·In)', puts, value, 'Ω', band.rests)] }
    },
    coldLoopFrac: () => {
      const share = figure(book, 'cold-loop')
      return {
        value: share.value,
        steps: [step('cold', 'share of the limit a cold reading may reach', [], share.value, '', share.rests)],
      }
    },
    earthingOf: (offered, forbidden) => earthingOf(book, offered, forbidden),
    transferNeed: () => ({
      value: 'neutral switched',
      steps: [
        step(
          'transfer',
          'all poles: the set is TN-S with one link of its own',
          [],
          'neutral switched',
          '',
          source('IEC 60364-5-55 551.6', 'memory'),
        ),
      ],
    }),
    setBond: (transfer) => setBond(transfer),
    electrodes: () => electrodes(book),
    outletNamed: (id, machine) => outletNamed(book, outlets, id, machine),
  }
}

/** List of ratings by the device's family: fuses, moulded-case frames, else miniature breakers and, above them, frames. */
function nextDeviceA(book: Book, neededA: number, family?: string): Worked<number | null> {
  const MCB = 'intl MCB (IEC 60898)'
  const MCCB = 'intl MCCB frames'
  if (family === 'gG') return ratingAtOrAboveA(book, 'intl gG fuse (IEC 60269)', neededA)
  if (family === 'IEC 60947-2') return ratingAtOrAboveA(book, MCCB, neededA)
  const small = ratingAtOrAboveA(book, MCB, neededA)
  if (small.value !== null || family !== undefined) return small
  return ratingAtOrAboveA(book, MCCB, neededA)
}

/** The device must let the start pass: its magnetic part may act from `k·In` on, so In ≥ start current / k. @source IEC 60898-1; start common practice */
function motorDeviceA(book: Book, motor: Parameters<RuleSet['motorDeviceA']>[0]): ReturnType<RuleSet['motorDeviceA']> {
  const start = figure(book, 'motor-start')
  const family = defaultsOf(book).deviceFamily
  const first = nextDeviceA(book, motor.currentA)
  const from = numberAt(book, 'trip-magnetic', family, 'from')
  const wanted = (start.value * motor.currentA) / from.value
  const next = nextDeviceA(book, Math.max(wanted, motor.currentA))
  const steps: Step[] = [
    step(
      'I',
      "running current, the motor's plate",
      [put('I', motor.currentA, 'A')],
      motor.currentA,
      'A',
      source("motor's plate", 'told'),
    ),
    ...first.steps,
    step(
      'In',
      `${start.value}·I/${from.value}: the start stays under the magnetic part`,
      [put('I', motor.currentA, 'A')],
      wanted,
      'A',
      from.rests,
    ),
    ...next.steps,
  ]
  return { value: { tableA: motor.currentA, conductorA: motor.currentA, deviceMaxA: next.value ?? first.value ?? wanted }, steps }
}

function neutralA(book: Book, load: Parameters<RuleSet['neutralA']>[0]): Worked<number> {
  const [from, ratio] = [figure(book, 'harmonic-neutral-more-from'), figure(book, 'harmonic-neutral-ratio')]
  const puts = [put('unbalance', load.unbalanceA, 'A'), put('line', load.lineA, 'A'), put('non-linear', load.nonLinearFrac)]
  if (load.system.kind === 'wye' && load.nonLinearFrac > from.value) {
    const value = Math.max(load.unbalanceA, ratio.value * load.lineA)
    return { value, steps: [step('IN', `third harmonics: ${ratio.value}·line`, puts, value, 'A', ratio.rests)] }
  }
  return {
    value: load.unbalanceA,
    steps: [step('IN', 'largest unbalance, nothing let off', puts, load.unbalanceA, 'A', from.rests)],
  }
}

function neutralCounts(book: Book, circuit: Parameters<RuleSet['neutralCounts']>[0]): Worked<boolean> {
  const from = figure(book, 'harmonic-neutral-from')
  const answer = (value: boolean, why: string): Worked<boolean> => ({
    value,
    steps: [step('neutral counts', why, [put('non-linear', circuit.nonLinearFrac)], value ? 'yes' : 'no', '', from.rests)],
  })
  if (circuit.connection === 'LL' || circuit.connection === 'LLL') return answer(false, 'no neutral')
  if (circuit.connection === 'LN') return answer(true, 'two loaded conductors, the neutral is one')
  if (circuit.connection === 'LLN') return answer(true, 'carries current without relief of the lines')
  return circuit.nonLinearFrac > from.value
    ? answer(true, `harmonics above ${from.value}: four loaded conductors`)
    : answer(false, 'three loaded conductors')
}

function dropLimit(
  book: Book,
  task: { readonly kind: LoadKind; readonly privateSource: boolean; readonly lengthM: number; readonly lighting?: boolean },
): DropLimit {
  const name = `drop-${task.privateSource ? 'private-' : ''}${task.lighting === true ? 'lighting' : 'other'}`
  const limit = figure(book, name)
  const extraPct = Math.min(
    Math.max(0, task.lengthM - figure(book, 'drop-long-from').value) * figure(book, 'drop-long-per-m').value,
    figure(book, 'drop-long-most').value,
  )
  const basis = word(book, 'drop-basis').value === 'code' ? 'code' : 'house'
  return { branchFrac: null, totalFrac: (limit.value + extraPct) / 100, basis, rests: limit.rests }
}

/** Longest time to disconnect, by the volts to earth, the form of earthing, and whether it is a final circuit. @source IEC 60364-4-41 411.3.2 */
function tripDemand(book: Book, task: Parameters<RuleSet['tripDemand']>[0]): TripDemand {
  const tt = task.earthing === 'TT'
  const to = figure(book, 'final-circuit-to')
  if (task.distribution || task.deviceA > to.value) {
    const time = figure(book, tt ? 'distribution-tt' : 'distribution-tn')
    return { kind: 'time', timeS: time.value, rests: time.rests }
  }
  const u = task.system.lineNeutralV
  const row = u <= 120 ? '50 < Uo <= 120' : u <= 230 ? '120 < Uo <= 230' : u <= 400 ? '230 < Uo <= 400' : 'Uo > 400'
  const time = numberAt(book, 'disconnect', row, tt ? 'TT' : 'TN')
  return { kind: 'time', timeS: time.value, rests: time.rests }
}

function transformerDevice(
  book: Book,
  task: Parameters<RuleSet['transformerDevice']>[0],
): ReturnType<RuleSet['transformerDevice']> {
  const [primary, secondary] = [figure(book, 'transformer-primary'), figure(book, 'transformer-secondary')]
  const primaryMaxA = primary.value * task.primaryA
  const steps = [
    step('primary', `${primary.value}·I, above the inrush`, [put('I', task.primaryA, 'A')], primaryMaxA, 'A', primary.rests),
  ]
  if (!task.secondaryProtected || task.secondaryA === undefined) return { value: { primaryMaxA, secondaryMaxA: null }, steps }
  const secondaryMaxA = secondary.value * task.secondaryA
  return {
    value: { primaryMaxA, secondaryMaxA },
    steps: [
      ...steps,
      step(
        'secondary',
        'overload: not above the rated current',
        [put('I', task.secondaryA, 'A')],
        secondaryMaxA,
        'A',
        secondary.rests,
      ),
    ],
  }
}

function earthingOf(book: Book, offered: string | null, forbidden: boolean): ReturnType<RuleSet['earthingOf']> {
  const pen = word(book, 'pen-at-movable-box')
  const answer = (value: 'TN-S' | 'TN-C-S' | 'TT', why: string): ReturnType<RuleSet['earthingOf']> => ({
    value,
    steps: [step('earthing', why, [put('offered', offered ?? 'not said')], value, '', pen.rests)],
  })
  if (forbidden || offered === null || offered === 'TT' || offered === 'IT') {
    const why = forbidden
      ? 'the source forbids its earth'
      : offered === null
        ? 'nobody said what the source offers'
        : `the source is ${offered}`
    return answer('TT', `${why}: own electrode and residual-current main`)
  }
  if (offered === 'TN-C-S' && pen.value === 'TT') return answer('TT', 'no PEN earth on a movable box with a metal skin')
  return offered === 'TN-C-S'
    ? answer('TN-C-S', `PEN earth at a movable box with a metal skin: ${pen.value}`)
    : answer('TN-S', 'separate protective conductor of the source')
}

function setBond(transfer: 'none' | 'neutral switched' | 'neutral solid'): ReturnType<RuleSet['setBond']> {
  const rests = source('IEC 60364-5-55 551.4, 551.6', 'memory')
  const answer = (value: 'at the set' | 'none', why: string): ReturnType<RuleSet['setBond']> => ({
    value,
    steps: [step('bond', why, [put('transfer', transfer)], value, '', rests)],
  })
  return transfer === 'neutral solid'
    ? answer('none', 'a changeover that leaves the neutral through is not for this box: a link at the set would be a second one')
    : answer('at the set', 'TN-S from the set with one neutral–earth link')
}

function electrodes(book: Book): ReturnType<RuleSet['electrodes']> {
  const get = (name: string) => figure(book, name)
  const [rods, length, diameter, spacing, steady] = [
    get('rods'),
    get('rod-length'),
    get('rod-diameter'),
    get('rod-spacing'),
    get('tt-steady'),
  ]
  return {
    value: {
      rods: rods.value,
      rodM: length.value,
      rodDiameterM: diameter.value,
      spacingM: spacing.value,
      valueOhm: steady.value,
    },
    steps: [
      step('n', 'rods', [], rods.value, '', rods.rests),
      step('L', 'length', [], length.value, 'm', length.rests),
      step('d', 'diameter', [], diameter.value, 'm', diameter.rests),
      step('s', 'spacing', [], spacing.value, 'm', spacing.rests),
      step('RA', 'RA·IΔn ≤ 50 V, and steady below this', [], steady.value, 'Ω', steady.rests),
    ],
  }
}
