import { put, type Step, source, step, type Working } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import type { BoxLoad } from '../staging/index.ts'
import { isContinuousLoad } from './demand.ts'
import { elementOn } from './element.ts'
import type { PlugNeed } from './result.ts'
import { energyPerDayKWh, plugVA, plugVar } from './sums.ts'

const ROOT3 = Math.sqrt(3)

/** |P − V·I·pf·k|/P at the nearest end of the power factor; 0 where P lies between the ends. */
export function disagreementFrac(load: BoxLoad): number {
  const apparent = load.currentA * load.voltageV * (load.phases === 3 ? ROOT3 : 1)
  const low = apparent * load.powerFactorFrac.low
  const high = apparent * load.powerFactorFrac.high
  if (load.powerW >= low && load.powerW <= high) return 0
  return Math.min(Math.abs(load.powerW - low), Math.abs(load.powerW - high)) / load.powerW
}

/** Where the watts of a row come from: told, or computed from another plate. */
const provenanceOf = (load: BoxLoad): PlugNeed['provenance'] =>
  load.own !== null ? 'common practice' : load.plug?.powerTold === false ? 'computed' : 'told'

export function plugNeed(load: BoxLoad, rules: RuleSet): PlugNeed {
  const { plug } = load
  const perDay = energyPerDayKWh(load)
  return {
    tag: load.tag,
    row: plug?.row ?? load.tag,
    what: plug?.what ?? load.ownLoad?.said ?? load.tag,
    machine: plug?.machine ?? load.box,
    own: load.own !== null,
    kind: load.kind,
    outlet: plug?.outlet ?? 'hard-wired',
    voltageV: load.voltageV,
    phases: load.phases,
    powerW: load.powerW,
    apparentVA: plugVA(load),
    reactiveVar: plugVar(load),
    powerFactorFrac: { low: load.powerFactorFrac.low, high: load.powerFactorFrac.high },
    currentA: load.currentA,
    legs: load.legs,
    hoursPerDay: plug?.hoursPerDay ?? load.runH,
    fromH: load.fromH,
    readyH: (load.fromH + load.windowH) % 24,
    dutyFrac: load.dutyFrac,
    daysPerYear: load.daysPerYear,
    disagreementFrac: plug?.currentTold ? disagreementFrac(load) : null,
    continuous: isContinuousLoad(load, rules),
    elementFrac: plug?.rated
      ? elementOn({ ratedW: plug.rated.powerW, ratedV: plug.rated.voltageV, actualV: plug.voltageV }).leftFrac
      : null,
    energyPerDayKWh: perDay,
    energyPerYearKWh: perDay * load.daysPerYear,
    provenance: provenanceOf(load),
  }
}

export const plugWorkingId = (tag: string): string => `${tag}/needs`

/** W, VA, A and energy of one plug, line by line. */
export function plugWorking(load: BoxLoad): Working {
  const need = load.plug
  const k = load.phases === 3 ? '√3·' : ''
  const watts = source(
    load.own !== null ? (load.ownLoad?.rests.place ?? 'house default') : 'machine list',
    load.own !== null ? 'common practice' : 'told',
  )
  const pf = load.powerFactorFrac
  const steps: Step[] = []
  if (need?.rated) {
    const on = elementOn({ ratedW: need.rated.powerW, ratedV: need.rated.voltageV, actualV: need.voltageV })
    steps.push(
      step(
        'P',
        'P0·(V/V0)²',
        [put('P0', need.rated.powerW, 'W'), put('V0', need.rated.voltageV, 'V'), put('V', need.voltageV, 'V')],
        on.powerW,
        'W',
        source("element's plate; Joule's law", 'computed'),
      ),
    )
  } else steps.push(step('P', load.own !== null ? (load.ownLoad?.said ?? 'own load') : 'as written', [], load.powerW, 'W', watts))
  const values = [
    put('P', load.powerW, 'W'),
    put('V', load.voltageV, 'V'),
    put('pf', pf.low === pf.high ? pf.low : `${pf.low} to ${pf.high}`),
  ]
  steps.push(
    step(
      'I',
      need?.currentTold ? 'as written' : `P/(${k}V·pf)`,
      values,
      load.currentA,
      'A',
      need?.currentTold ? source('machine list', 'told') : source('definition of power factor', 'computed'),
    ),
    step(
      'S',
      `${k}V·I`,
      [put('V', load.voltageV, 'V'), put('I', load.currentA, 'A')],
      plugVA(load).high,
      'VA',
      source('definition of apparent power', 'computed'),
    ),
    step(
      'W',
      'P·h·duty',
      [put('P', load.powerW, 'W'), put('h', load.runH, 'h'), put('duty', load.dutyFrac)],
      energyPerDayKWh(load),
      'kWh a day',
      source('definition of energy', 'computed'),
    ),
  )
  const notes = pf.told || load.own !== null ? [] : [`Power factor not told: ${pf.basis}, judged at both ends.`]
  return { id: plugWorkingId(load.tag), title: `What ${load.tag} draws`, steps, notes }
}
