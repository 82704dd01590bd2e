import { put, type Source, step, type Worked } from '../../kernel/index.ts'
import { heatingK } from '../common/adiabatic.ts'
import { type Book, figure, listAt, numberAt, numberOrNull } from '../common/book.ts'
import { wirewayOf } from '../common/build.ts'
import { cordColdC } from '../common/cords.ts'
import { coloursOf, defaultsOf, outletNamed, outletsOf, sizesOf, systemsOf } from '../common/lists.ts'
import { ratingAtOrAboveA } from '../common/ratings.ts'
import { tripBand } from '../common/trip.ts'
import type { RuleSet } from '../rule-set.ts'
import { installed } from './ampacity.ts'
import { conductorChecks, conductorFor } from './conductor.ts'
import { cordAmpacityA, cordSizes } from './cords.ts'
import { impedanceOhmPerM } from './impedance.ts'
import { motorDeviceA, motorFeederA, motorFeederDeviceA } from './motor.ts'
import { neutralA, neutralCounts } from './neutral.ts'
import { boxFill, racewayFor, wireAreaMm2 } from './raceway.ts'
import type { North } from './spec.ts'

/** What `us` and `ca` answer alike; the rest is each set's own. */
export type NorthShared = Pick<
  RuleSet,
  | 'symbols'
  | 'frequencyHz'
  | 'systems'
  | 'outlets'
  | 'sizes'
  | 'colours'
  | 'defaults'
  | 'deviceHoldsA'
  | 'nextDeviceA'
  | 'motorDeviceA'
  | 'motorFeederA'
  | 'motorFeederDeviceA'
  | 'ampacityA'
  | 'conductorChecks'
  | 'conductorFor'
  | 'cordAmpacityA'
  | 'cordSizes'
  | 'cordColdC'
  | 'impedanceOhmPerM'
  | 'neutralA'
  | 'neutralCounts'
  | 'adiabaticK'
  | 'wireway'
  | 'wireAreaMm2'
  | 'racewayFor'
  | 'boxFill'
  | 'tripDemand'
  | 'tripBand'
  | 'voltageFactor'
  | 'interruptingStepsKA'
  | 'motorContributionRatio'
  | 'loopLimitOhm'
  | 'coldLoopFrac'
  | 'earthingOf'
  | 'transferNeed'
  | 'setBond'
  | 'electrodes'
  | 'outletNamed'
>

export function northShared(
  north: North,
  clauses: { readonly fault: Source; readonly neutral: Source; readonly electrode: Source },
): NorthShared {
  const { book } = north
  const sizes = sizesOf(book, 'us-ampacity', 'area', [
    'us-dc-resistance',
    'us-ac-impedance',
    north.book.set === 'us' ? 'us-conductor-area' : 'ca-rw90-diameter',
  ])
  const outlets = outletsOf(book)
  return {
    symbols: 'IEEE 315',
    frequencyHz: 60,
    systems: systemsOf(book),
    outlets,
    sizes,
    colours: coloursOf(book),
    defaults: defaultsOf(book),
    deviceHoldsA: (deviceA) => {
      const holds = figure(book, 'device-holds')
      const value = holds.value * deviceA
      return {
        value,
        steps: [step('I', `${holds.value}·In, device not marked for 100 %`, [put('In', deviceA, 'A')], value, 'A', holds.rests)],
      }
    },
    nextDeviceA: (neededA) => nextDeviceA(north, neededA),
    motorDeviceA: (motor) => motorDeviceA(north, motor),
    motorFeederA: (tableA) => motorFeederA(north, tableA),
    motorFeederDeviceA: (task) => motorFeederDeviceA(north, task),
    ampacityA: (size, task) => {
      const as = installed(north, size, task)
      return { value: as.value, steps: as.steps }
    },
    conductorChecks: (size, task) => conductorChecks(north, size, task),
    conductorFor: (task) => conductorFor(north, sizes, task),
    cordAmpacityA: (cord) => cordAmpacityA(north, cord),
    cordSizes: () => cordSizes(north),
    cordColdC: (type) => cordColdC(book, type),
    impedanceOhmPerM: (wire) => impedanceOhmPerM(north, wire),
    neutralA: (load) => neutralA(north, load),
    neutralCounts: (circuit) => neutralCounts(north, circuit),
    adiabaticK: (wire) => adiabaticK(north, wire),
    wireway: wirewayOf(book),
    wireAreaMm2: (wire) => wireAreaMm2(north, wire),
    racewayFor: (wires, kind) => {
      const { value, steps } = racewayFor(north, wires, kind)
      return { value, steps }
    },
    boxFill: (task) => boxFill(north, task),
    tripDemand: () => ({ kind: 'magnetic', rests: clauses.fault }),
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
    interruptingStepsKA: (system) => {
      const slash = system.kind !== 'delta' && system.lineLineV <= SLASH_TO_V
      return listAt(book, 'interrupting', slash ? 'us, ca at 120/240 V' : 'us, ca at 240-600 V', 'steps').value
    },
    motorContributionRatio: () => {
      const ratio = figure(book, 'motor-contribution')
      return {
        value: ratio.value,
        steps: [step('m', 'times the running motors’ full-load current, first half cycle', [], ratio.value, '', ratio.rests)],
      }
    },
    loopLimitOhm: (task) => {
      const low = figure(book, 'voltage-min')
      const band = tripBand(book, task.family, task.deviceA)
      const value = (low.value * task.toEarthV) / (band.magneticSureRatio * task.deviceA)
      const puts = [
        put('c', low.value),
        put('U', task.toEarthV, 'V'),
        put('k', band.magneticSureRatio),
        put('In', task.deviceA, 'A'),
      ]
      return { value, steps: [step('Zs', 'c·U/(k·In), not asked by the code', puts, value, 'Ω', band.rests)] }
    },
    coldLoopFrac: () => null,
    earthingOf: () => ({
      value: 'service bond',
      steps: [
        step(
          'earthing',
          'neutral bonded at the service or the separately derived source, once',
          [],
          'service bond',
          '',
          clauses.neutral,
        ),
      ],
    }),
    transferNeed: () => ({
      value: 'either',
      steps: [
        step(
          'transfer',
          'a neutral that is switched makes the set a separately derived source',
          [],
          'either',
          '',
          clauses.neutral,
        ),
      ],
    }),
    setBond: (transfer) => setBond(transfer, clauses.neutral),
    electrodes: () => electrodes(book, clauses.electrode),
    outletNamed: (id, machine) => outletNamed(book, outlets, id, machine),
  }
}

function nextDeviceA(north: North, neededA: number): Worked<number | null> {
  if (north.book.set !== 'us') return ratingAtOrAboveA(north.book, north.ratings, neededA)
  const least = figure(north.book, 'smallest-receptacle-device')
  const next = ratingAtOrAboveA(north.book, north.ratings, Math.max(neededA, least.value))
  if (neededA >= least.value) return next
  return {
    value: next.value,
    steps: [
      step('In', 'smallest device of a receptacle circuit', [put('I', neededA, 'A')], least.value, 'A', least.rests),
      ...next.steps,
    ],
  }
}

function adiabaticK(north: North, wire: { readonly metal: 'cu' | 'al'; readonly insulation: string }): Worked<number> {
  const id = numberOrNull(north.book, north.insulation, wire.insulation, 'rating') === null ? 'cord-jackets' : north.insulation
  const [initial, final] = [
    numberAt(north.book, id, wire.insulation, 'rating'),
    numberAt(north.book, id, wire.insulation, 'final'),
  ]
  const k = heatingK(north.book, { metal: wire.metal, initialC: initial.value, finalC: final.value })
  return {
    value: k.value,
    steps: [
      step('T2', `${wire.insulation} after a short circuit, from ${initial.value} °C`, [], final.value, '°C', final.rests),
      ...k.steps,
    ],
  }
}

function setBond(transfer: 'none' | 'neutral switched' | 'neutral solid', rests: Source): ReturnType<RuleSet['setBond']> {
  const answer = (value: 'at the set' | 'none', why: string): ReturnType<RuleSet['setBond']> => ({
    value,
    steps: [step('bond', why, [put('transfer', transfer)], value, '', rests)],
  })
  if (transfer === 'neutral solid')
    return answer(
      'none',
      'neutral not switched: not separately derived, bonded at the service only; a set with a bond of its own does not go with it',
    )
  if (transfer === 'neutral switched')
    return answer(
      'at the set',
      'neutral switched: separately derived, one bond at the set (or at the first disconnect instead, never both)',
    )
  return answer('at the set', 'no other source: separately derived, one bond at the set')
}

function electrodes(book: Book, rests: Source): ReturnType<RuleSet['electrodes']> {
  const get = (name: string) => figure(book, name)
  const [rods, length, diameter, spacing] = [get('rods'), get('rod-length'), get('rod-diameter'), get('rod-spacing')]
  return {
    value: { rods: rods.value, rodM: length.value, rodDiameterM: diameter.value, spacingM: spacing.value, valueOhm: null },
    steps: [
      step('n', 'rods', [], rods.value, '', rods.rests),
      step('L', 'length', [], length.value, 'm', length.rests),
      step('d', 'diameter', [], diameter.value, 'm', diameter.rests),
      step('s', 'spacing at least', [], spacing.value, 'm', spacing.rests),
      step('R', 'no value asked of two rods', [], 'none', 'Ω', rests),
    ],
  }
}

/** Breakers marked 120/240 V serve systems up to that voltage between lines with 120 V to earth. */
const SLASH_TO_V = 240
