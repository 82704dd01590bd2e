import { put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure, rests, tableOf, word } from '../common/book.ts'
import { buildRulesOf } from '../common/build.ts'
import { ratingAtOrAboveA, ratingAtOrBelowA } from '../common/ratings.ts'
import { sizeName } from '../common/size.ts'
import { northShared } from '../north/north.ts'
import { bondingFor } from '../north/protective.ts'
import type { North } from '../north/spec.ts'
import type { Overlay, RuleSet } from '../rule-set.ts'
import { caShockFor } from './shock.ts'

/** The rule set of the Canadian Electrical Code, Part I, 25th edition (2021). */
export function ca(book: Book, overlays: readonly Overlay[]): RuleSet {
  const north: North = {
    book,
    grouping: 'ca-grouping',
    smallConductor: 'ca-small-conductor',
    insulation: 'ca-insulation',
    ratings: 'ca',
    coldRaises: false,
    conditionsCarry: 'the current over the holding share',
    motorRounds: 'down',
  }
  return {
    ...northShared(north, {
      fault: source('CE Code Rule 10-500: no time; the suggested check is the certain magnetic trip', 'memory'),
      neutral: source('CE Code Sections 10 and 28', 'memory'),
      electrode: source('CE Code Rule 10-102', 'read', 'CE Code 2024'),
    }),
    id: 'ca',
    title: 'Canadian Electrical Code, Part I, 25th edition (2021)',
    edition: 'CE Code 2021',
    overlays,
    tables: book.tables,
    build: buildRulesOf(book),
    isContinuous: (hours, deviceA) => {
      const small = deviceA <= figure(book, 'continuous-small-to').value
      const over = figure(book, small ? 'continuous-small-over' : 'continuous-large-over')
      const value = hours > over.value
      return {
        value,
        steps: [
          step(
            'continuous',
            `over ${over.value} ${small ? 'h in any 2 h' : 'h in any 6 h'}`,
            [put('t', hours, 'h'), put('In', deviceA, 'A')],
            value ? 'yes' : 'no',
            '',
            over.rests,
          ),
        ],
      }
    },
    deviceNeedA: (load) => {
      const holds = figure(book, 'device-holds')
      const value = load.continuousA / holds.value + load.otherA
      return {
        value,
        steps: [
          step(
            'In',
            `continuous/${holds.value} + other`,
            [put('Ic', load.continuousA, 'A'), put('Io', load.otherA, 'A')],
            value,
            'A',
            holds.rests,
          ),
        ],
      }
    },
    protectiveFor: (task) => bondingFor(north, task),
    electrodeConductorFor: () => {
      const least = word(book, 'grounding-conductor')
      const value = sizeName(least.value)
      return { value, steps: [step('GEC', 'not smaller than', [], value, '', least.rests)] }
    },
    shockFor: (task) => caShockFor(book, task),
    dropLimit: () => {
      const [branch, total] = [figure(book, 'drop-branch'), figure(book, 'drop-total')]
      return { branchFrac: branch.value / 100, totalFrac: total.value / 100, basis: 'code', rests: total.rests }
    },
    vehicleHeaterDemandW: (task) => vehicleHeaterDemandW(book, task),
    demandA: (task) => demandA(book, task),
    transformerDevice: (task) => transformerDevice(book, task),
  }
}

/**
 * Demand of vehicle-heater receptacles by tiers, but never below what their plates say when every space can be full at once.
 * @source CE Code Rule 8-400(3) and (5). Provenance: read in the 2024 text
 */
function vehicleHeaterDemandW(book: Book, task: Parameters<RuleSet['vehicleHeaterDemandW']>[0]): Worked<number> {
  const table = tableOf(book, 'ca-vehicle-heater')
  const column = `${task.restricted ? 'restricted' : 'open'}_${task.circuitA <= CIRCUIT_15_A ? '15A' : '20A'}`
  const at = table.columns.indexOf(column)
  const steps: Step[] = []
  let before = 0
  let tiersW = 0
  table.rows.forEach((row, i) => {
    const to = typeof row[0] === 'number' ? row[0] : Number.POSITIVE_INFINITY
    const here = Math.max(0, Math.min(task.count, to) - before)
    before = to
    if (here === 0) return
    const each = row[at] as number
    tiersW += here * each
    steps.push(
      step(
        'P',
        `${here} spaces at ${each} W`,
        [put('n', here), put('P1', each, 'W')],
        here * each,
        'W',
        rests(book, table, i, column),
      ),
    )
  })
  const platesW = task.count * task.nameplateW
  const value = Math.max(tiersW, platesW)
  const from = rests(book, table, 0, column)
  steps.push(
    step(
      'P',
      'the greater of tiers and plates: all spaces can be full at once (subrule 5)',
      [put('tiers', tiersW, 'W'), put('plates', platesW, 'W')],
      value,
      'W',
      from,
    ),
  )
  return { value, steps }
}

/** The code gives no reduction for general receptacles of this kind of place: all of them at their load. @source CE Code 8-210, 28-108 */
function demandA(book: Book, task: Parameters<RuleSet['demandA']>[0]): Worked<number> {
  const [holds, motor] = [figure(book, 'device-holds'), figure(book, 'motor-feeder-ratio')]
  const generalA = task.generalVA / task.lineV
  const continuousA = task.continuousA / holds.value
  const motorA = (motor.value - 1) * task.largestMotorA
  const value = continuousA + task.otherA + motorA + generalA
  return {
    value,
    steps: [
      step(
        'Ig',
        'general receptacles: all of them',
        [put('S', task.generalVA, 'VA'), put('U', task.lineV, 'V')],
        generalA,
        'A',
        source('CE Code Rule 8-210', 'read', 'CE Code 2024'),
      ),
      step('Ic', `continuous/${holds.value}`, [put('I', task.continuousA, 'A')], continuousA, 'A', holds.rests),
      step('Im', `${motor.value} − 1 of the largest motor`, [put('I', task.largestMotorA, 'A')], motorA, 'A', motor.rests),
      step('I', 'Ic + other + Im + Ig', [put('other', task.otherA, 'A')], value, 'A', holds.rests),
    ],
  }
}

/** @source CE Code Rules 26-252 and 26-254. Provenance: per row */
function transformerDevice(
  book: Book,
  task: Parameters<RuleSet['transformerDevice']>[0],
): ReturnType<RuleSet['transformerDevice']> {
  const steps: Step[] = []
  const name = !task.dry
    ? task.secondaryProtected
      ? 'transformer-dry-feeder'
      : otherName(task.primaryA)
    : task.secondaryProtected
      ? 'transformer-dry-feeder'
      : 'transformer-dry-primary'
  const primary = figure(book, name)
  const limitA = primary.value * task.primaryA
  steps.push(step('primary', `${primary.value}·I`, [put('I', task.primaryA, 'A')], limitA, 'A', primary.rests))
  const rounded = task.secondaryProtected ? ratingAtOrBelowA(book, 'ca', limitA) : ratingAtOrAboveA(book, 'ca', limitA)
  steps.push(...rounded.steps)
  let secondaryMaxA: number | null = null
  if (task.secondaryProtected && task.secondaryA !== undefined) {
    const secondary = figure(book, 'transformer-secondary')
    const secondaryA = secondary.value * task.secondaryA
    const down = ratingAtOrBelowA(book, 'ca', secondaryA)
    steps.push(
      step(
        'secondary',
        `${secondary.value}·I, next size down`,
        [put('I', task.secondaryA, 'A')],
        secondaryA,
        'A',
        secondary.rests,
      ),
      ...down.steps,
    )
    secondaryMaxA = down.value
  }
  return { value: { primaryMaxA: rounded.value ?? limitA, secondaryMaxA }, steps }
}

const otherName = (primaryA: number): string =>
  primaryA < UNDER_2_A
    ? 'transformer-other-primary-under-2'
    : primaryA < UNDER_9_A
      ? 'transformer-other-primary-under-9'
      : 'transformer-other-primary'

/** Bounds that the rule names. */
const UNDER_9_A = 9
const UNDER_2_A = 2
const CIRCUIT_15_A = 15
