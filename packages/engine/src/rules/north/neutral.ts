import { put, type Step, step, type Worked } from '../../kernel/index.ts'
import { figure } from '../common/book.ts'
import type { RuleSet } from '../rule-set.ts'
import type { North } from './spec.ts'

/**
 * Current the neutral must be sized for: the largest unbalance, less the share let off above 200 A; nothing is let off for non-linear
 * load on a wye, and nothing on a three-wire circuit of a wye (its neutral carries line current).
 *
 *   IN = 200 + 0.7 · (unbalance − 200)
 *
 * @source NEC 220.61; CE Code Rule 4-018. Provenance: memory
 */
export function neutralA(north: North, load: Parameters<RuleSet['neutralA']>[0]): Worked<number> {
  const full = figure(north.book, 'neutral-full-to')
  const rest = figure(north.book, 'neutral-rest')
  const major = figure(north.book, 'non-linear-major')
  const wye = load.system.kind === 'wye'
  const steps: Step[] = []
  let value = load.unbalanceA
  const linearA = wye ? load.unbalanceA * (1 - load.nonLinearFrac) : load.unbalanceA
  if (linearA > full.value) {
    value = load.unbalanceA - (linearA - full.value) * (1 - rest.value)
    const said = `above ${full.value} A ${rest.value} of the part that is not non-linear`
    steps.push(step('IN', said, [put('unbalance', load.unbalanceA, 'A'), put('linear', linearA, 'A')], value, 'A', rest.rests))
  } else
    steps.push(step('IN', 'largest unbalance, nothing let off', [put('unbalance', load.unbalanceA, 'A')], value, 'A', full.rests))
  if (wye && load.nonLinearFrac > major.value && load.lineA > value) {
    value = load.lineA
    steps.push(
      step('IN', 'mostly non-linear load on a wye: the line current', [put('line', load.lineA, 'A')], value, 'A', major.rests),
    )
  }
  return { value, steps }
}

/** Does the neutral count as a current-carrying conductor? @source NEC 310.15(E); CE Code Rule 4-004. Provenance: memory */
export function neutralCounts(north: North, circuit: Parameters<RuleSet['neutralCounts']>[0]): Worked<boolean> {
  const major = figure(north.book, 'non-linear-major')
  const answer = (value: boolean, why: string): Worked<boolean> => ({
    value,
    steps: [step('neutral counts', why, [put('non-linear', circuit.nonLinearFrac)], value ? 'yes' : 'no', '', major.rests)],
  })
  const wye = circuit.system.kind === 'wye'
  if (circuit.connection === 'LL' || circuit.connection === 'LLL') return answer(false, 'no neutral')
  if (circuit.connection === 'LN') return answer(true, 'two-wire circuit: the neutral carries the load current')
  if (circuit.connection === 'LLN') {
    return wye
      ? answer(true, 'two lines and neutral of a wye: the neutral carries about the line current')
      : answer(false, 'neutral carries only the unbalance of two legs')
  }
  return wye && circuit.nonLinearFrac > major.value
    ? answer(true, 'major part of the load is non-linear')
    : answer(false, 'neutral carries only the unbalance')
}
