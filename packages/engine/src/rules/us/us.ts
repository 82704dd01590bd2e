import { put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import { type Book, cellAt, figure, numberAt } from '../common/book.ts'
import { buildRulesOf } from '../common/build.ts'
import { steppedDemandVA } from '../common/demand.ts'
import { ratingAtOrAboveA } from '../common/ratings.ts'
import { northShared } from '../north/north.ts'
import { groundingElectrodeFor, groundingFor } from '../north/protective.ts'
import type { North } from '../north/spec.ts'
import type { DropLimit, Overlay, RuleSet } from '../rule-set.ts'
import { usShockFor } from './shock.ts'

/** The rule set of the National Electrical Code, NFPA 70-2023. */
export function us(book: Book, overlays: readonly Overlay[]): RuleSet {
  const north: North = {
    book,
    grouping: 'us-grouping',
    smallConductor: 'us-small-conductor',
    insulation: 'us-insulation',
    ratings: 'us',
    coldRaises: true,
    conditionsCarry: 'the current',
    motorRounds: 'up',
  }
  return {
    ...northShared(north, {
      fault: source('NEC 250.4(A)(5): no time; the suggested check is the certain magnetic trip', 'memory'),
      neutral: source('NEC 250.30, 250.24', 'memory'),
      electrode: source('NEC 250.53(A)(2)', 'read', 'NFPA 70-2017 text'),
    }),
    id: 'us',
    title: 'National Electrical Code, NFPA 70-2023',
    edition: 'NFPA 70-2023',
    overlays,
    tables: book.tables,
    build: buildRulesOf(book),
    isContinuous: (hours) => {
      const from = figure(book, 'continuous-from')
      return {
        value: hours >= from.value,
        steps: [
          step(
            'continuous',
            `${from.value} h or more`,
            [put('t', hours, 'h')],
            hours >= from.value ? 'yes' : 'no',
            '',
            from.rests,
          ),
        ],
      }
    },
    deviceNeedA: (load) => {
      const ratio = figure(book, 'continuous-ratio')
      const value = ratio.value * load.continuousA + load.otherA
      return {
        value,
        steps: [
          step(
            'In',
            `${ratio.value}·continuous + other`,
            [put('Ic', load.continuousA, 'A'), put('Io', load.otherA, 'A')],
            value,
            'A',
            ratio.rests,
          ),
        ],
      }
    },
    protectiveFor: (task) => groundingFor(north, task),
    electrodeConductorFor: (task) => groundingElectrodeFor(north, task),
    shockFor: (task) => usShockFor(book, task),
    dropLimit: () => dropLimit(book),
    vehicleHeaterDemandW: () => null,
    demandA: (task) => demandA(book, task),
    transformerDevice: (task) => transformerDevice(book, task),
  }
}

function dropLimit(book: Book): DropLimit {
  const [branch, total] = [figure(book, 'drop-branch'), figure(book, 'drop-total')]
  return { branchFrac: branch.value / 100, totalFrac: total.value / 100, basis: 'house', rests: total.rests }
}

function demandA(book: Book, task: Parameters<RuleSet['demandA']>[0]): Worked<number> {
  const [ratio, motor, full, rest] = [
    figure(book, 'continuous-ratio'),
    figure(book, 'motor-feeder-ratio'),
    figure(book, 'general-full-to'),
    figure(book, 'general-rest'),
  ]
  const generalVA = steppedDemandVA({ loadVA: task.generalVA, fullToVA: full.value, restFrac: rest.value })
  const generalA = generalVA / task.lineV
  const continuousA = ratio.value * task.continuousA
  const motorA = (motor.value - 1) * task.largestMotorA
  const value = continuousA + task.otherA + motorA + generalA
  return {
    value,
    steps: [
      step(
        'Sg',
        `general receptacles: first ${full.value} VA, ${rest.value} of the rest`,
        [put('S', task.generalVA, 'VA')],
        generalVA,
        'VA',
        full.rests,
      ),
      step('Ic', `${ratio.value}·continuous`, [put('I', task.continuousA, 'A')], continuousA, 'A', ratio.rests),
      step('Im', `${motor.value} − 1 of the largest motor`, [put('I', task.largestMotorA, 'A')], motorA, 'A', motor.rests),
      step('I', 'Ic + other + Im + Sg/U', [put('other', task.otherA, 'A'), put('U', task.lineV, 'V')], value, 'A', ratio.rests),
    ],
  }
}

/** @source NEC Table 450.3(B). Provenance: read in the 2017 text */
function transformerDevice(
  book: Book,
  task: Parameters<RuleSet['transformerDevice']>[0],
): ReturnType<RuleSet['transformerDevice']> {
  const steps: Step[] = []
  const share = (scheme: string, column: string) => percentAt(book, scheme, column)
  const small = (a: number) => (a < UNDER_2_A ? 'primary_under_2A' : a < UNDER_9_A ? 'primary_2_to_9A' : 'primary_9A_or_more')
  const scheme = task.secondaryProtected ? 'primary and secondary' : 'primary only'
  const primary = share(scheme, small(task.primaryA))
  const limitA = primary.value * task.primaryA
  steps.push(step('primary', `${primary.value}·I, ${scheme}`, [put('I', task.primaryA, 'A')], limitA, 'A', primary.rests))
  const up = primary.up ? ratingAtOrAboveA(book, 'us', limitA) : null
  if (up !== null) steps.push(...up.steps)
  let secondaryMaxA: number | null = null
  if (task.secondaryProtected && task.secondaryA !== undefined) {
    const column = task.secondaryA < UNDER_9_A ? 'secondary_under_9A' : 'secondary_9A_or_more'
    const secondary = share(scheme, column)
    const secondaryA = secondary.value * task.secondaryA
    steps.push(step('secondary', `${secondary.value}·I`, [put('I', task.secondaryA, 'A')], secondaryA, 'A', secondary.rests))
    const next = secondary.up ? ratingAtOrAboveA(book, 'us', secondaryA) : null
    if (next !== null) steps.push(...next.steps)
    secondaryMaxA = next?.value ?? secondaryA
  }
  return { value: { primaryMaxA: up?.value ?? limitA, secondaryMaxA }, steps }
}

/** A percentage as printed, “125 (next up)”: its share, and whether the next standard size up is allowed. */
function percentAt(book: Book, scheme: string, column: string) {
  const cell = cellAt(book, 'us-transformer-ocpd', scheme, column) ?? numberAt(book, 'us-transformer-ocpd', scheme, column)
  const [, number, up] = /^(\d+)( \(next up\))?$/.exec(String(cell.value)) ?? []
  return { value: Number(number) / 100, up: up !== undefined, rests: cell.rests }
}

/** Bounds of the table's columns, in their names. */
const UNDER_9_A = 9
const UNDER_2_A = 2
