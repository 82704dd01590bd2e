import { Fault, put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import { figure, numberAt, tableOf } from '../common/book.ts'
import { ratingAtOrAboveA, ratingAtOrBelowA } from '../common/ratings.ts'
import type { Cited, RuleSet } from '../rule-set.ts'
import type { North } from './spec.ts'

type MotorTask = Parameters<RuleSet['motorDeviceA']>[0]

/** Volts of the table's columns and up to where each is read: a 240 V motor is read at 230. */
const COLUMN_TO_V = [
  [130, 'v115'],
  [204, 'v200'],
  [219, 'v208'],
  [277, 'v230'],
  [480, 'v460'],
  [600, 'v575'],
] as const

/** Table full-load current of a motor by its horsepower: the row at or above it. Null when the table has none. */
export function tableMotorA(
  north: North,
  motor: { readonly hp: number; readonly voltageV: number; readonly phases: 1 | 3 },
): Cited<number> | null {
  const id = motor.phases === 1 ? 'us-motor-flc1' : 'us-motor-flc3'
  const table = tableOf(north.book, id)
  const column = COLUMN_TO_V.find(([to]) => motor.voltageV <= to)?.[1]
  if (column === undefined || !table.columns.includes(column)) return null
  const row = table.rows.find(([hp]) => typeof hp === 'number' && motor.hp <= hp * (1 + SAME_HP_FRAC))
  return row === undefined ? null : numberAt(north.book, id, row[0] as number, column)
}

/**
 * Motor branch circuit: table current, conductor, and largest device.
 *
 *   conductor ≥ 1.25 · FLC,   device ≤ 2.5 · FLC (inverse-time), rounded as the set does; 4 or 3 · FLC when it will not start
 *
 * @throws Fault `rules/motor-current` when the current is not positive
 * @source NEC 430.22, 430.52; CE Code Rules 28-106, 28-200, Table 29. Provenance: per row
 */
export function motorDeviceA(north: North, motor: MotorTask): ReturnType<RuleSet['motorDeviceA']> {
  if (!(motor.currentA > 0)) throw new Fault('rules/motor-current', motor)
  const { book } = north
  const steps: Step[] = []
  const table = motorTableA(north, motor)
  steps.push(...table.steps)
  const ratio = figure(book, 'motor-conductor-ratio')
  const conductorA = ratio.value * table.value
  steps.push(step('I conductor', `${ratio.value}·FLC`, [put('FLC', table.value, 'A')], conductorA, 'A', ratio.rests))
  const percent = numberAt(
    book,
    'us-motor-ocpd',
    motor.phases === 1 ? 'single-phase' : 'polyphase squirrel cage',
    'inverse_time_breaker',
  )
  const share = percent.value / 100
  const limitA = share * table.value
  steps.push(step('I device', `${share}·FLC, inverse-time breaker`, [put('FLC', table.value, 'A')], limitA, 'A', percent.rests))
  if (motor.hardStart === true) {
    const small = limitA > 0 && table.value <= figure(book, 'motor-hard-start-small-to').value
    const hard = figure(book, small ? 'motor-hard-start-small' : 'motor-hard-start-large')
    const hardA = hard.value * table.value
    steps.push(
      step(
        'I device',
        `it will not start on the size above: ${hard.value}·FLC`,
        [put('FLC', table.value, 'A')],
        hardA,
        'A',
        hard.rests,
      ),
    )
    return rounded(north, hardA, 'down', { tableA: table.value, conductorA }, steps)
  }
  return rounded(north, limitA, north.motorRounds, { tableA: table.value, conductorA }, steps)
}

function rounded(
  north: North,
  limitA: number,
  way: 'up' | 'down',
  sofar: { readonly tableA: number; readonly conductorA: number },
  steps: readonly Step[],
): ReturnType<RuleSet['motorDeviceA']> {
  const to =
    way === 'up' ? ratingAtOrAboveA(north.book, north.ratings, limitA) : ratingAtOrBelowA(north.book, north.ratings, limitA)
  const least = ratingAtOrAboveA(north.book, north.ratings, smallestA(north))
  const deviceMaxA = Math.max(to.value ?? 0, least.value ?? 0)
  return { value: { ...sofar, deviceMaxA }, steps: [...steps, ...to.steps] }
}

const smallestA = (north: North): number =>
  figure(north.book, north.book.set === 'ca' ? 'motor-smallest-device' : 'smallest-receptacle-device').value

function motorTableA(north: North, motor: MotorTask): Worked<number> {
  const perHp = figure(north.book, 'shaft-horsepower')
  const hp = motor.hp ?? (motor.shaftW === undefined ? null : motor.shaftW / perHp.value)
  const told = (why: string): Worked<number> => ({
    value: motor.currentA,
    steps: [step('FLC', why, [put('I', motor.currentA, 'A')], motor.currentA, 'A', source("motor's plate", 'told'))],
  })
  if (hp === null) return told('no shaft power known: current as told')
  const table = tableMotorA(north, { hp, voltageV: motor.voltageV, phases: motor.phases })
  if (table === null) return told(`no table row for ${hp} hp at ${motor.voltageV} V: current as told`)
  const puts = [put('hp', hp), put('U', motor.voltageV, 'V')]
  return { value: table.value, steps: [step('FLC', `table current, ${motor.phases}-phase`, puts, table.value, 'A', table.rests)] }
}

/** Smallest feeder conductor for several motors: 1.25 times the largest table current and the others'. @source NEC 430.24; CE Code 28-108 */
export function motorFeederA(north: North, tableA: readonly number[]): Worked<number> {
  const ratio = figure(north.book, 'motor-feeder-ratio')
  const largest = Math.max(0, ...tableA)
  const others = tableA.reduce((a, b) => a + b, 0) - largest
  const value = ratio.value * largest + others
  return {
    value,
    steps: [
      step(
        'I',
        `${ratio.value}·largest + others`,
        [put('largest', largest, 'A'), put('others', others, 'A')],
        value,
        'A',
        ratio.rests,
      ),
    ],
  }
}

/** Largest device of a feeder to motors: largest branch device and the others' currents, next standard rating down. @source NEC 430.62 */
export function motorFeederDeviceA(
  north: North,
  task: { readonly largestDeviceA: number; readonly othersA: readonly number[] },
): Worked<number | null> {
  const others = task.othersA.reduce((a, b) => a + b, 0)
  const sum = task.largestDeviceA + others
  const down = ratingAtOrBelowA(north.book, north.ratings, sum)
  const rests = north.book.set === 'us' ? source('NEC 430.62', 'memory') : source('CE Code Rule 28-204', 'read', 'CE Code 2024')
  const puts = [put('largest device', task.largestDeviceA, 'A'), put('others', others, 'A')]
  return { value: down.value, steps: [step('I', 'largest branch device + others', puts, sum, 'A', rests), ...down.steps] }
}

/** A shaft power in watts and its horsepower name differ by rounding: 2200 W is sold as 3 hp (2237 W), 1500 W as 2 hp (1491 W). */
const SAME_HP_FRAC = 0.02
