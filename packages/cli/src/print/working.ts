import type { Judgement, Put, Source, Step, Working } from '@plugstead/engine/kernel'
import { quantityText } from './number.ts'
import { wrapped } from './wrap.ts'

/** One derivation as blocks of a few short rows: symbol and expression, values, result, what it rests on. */
export function workingText(working: Working): string {
  return [
    wrapped(`${working.title} [${working.id}]`, { hang: 2 }),
    ...working.steps.map(stepText),
    ...(working.judgement === undefined ? [] : [judgementText(working.judgement)]),
    ...(working.crossCheck === undefined || working.crossCheck.length === 0
      ? []
      : ['  Cross-check', ...working.crossCheck.map(stepText)]),
    ...(working.notes ?? []).map((note) => wrapped(`note  ${note}`, { indent: 2, hang: 8 })),
  ].join('\n\n')
}

function stepText(step: Step): string {
  return [
    wrapped(`${step.symbol} = ${step.expression}`, { indent: 2, hang: 6 }),
    ...(step.values.length === 0 ? [] : [wrapped(`with  ${step.values.map(putText).join(', ')}`, { indent: 6, hang: 12 })]),
    wrapped(`${step.symbol} = ${quantityText(step.result, step.unit)}`, { indent: 6, hang: 8 }),
    wrapped(`rests on ${restsText(step.rests)}`, { indent: 6, hang: 15 }),
  ].join('\n')
}

function judgementText({ demand, relation, limit, tight, rests }: Judgement): string {
  return [
    wrapped(`${putText(demand)} ${relation} ${putText(limit)} ?`, { indent: 2, hang: 6 }),
    ...(tight === '' || tight === 'none' ? [] : [wrapped(`counts as tight within ${tight}`, { indent: 6 })]),
    wrapped(`rests on ${restsText(rests)}`, { indent: 6, hang: 15 }),
  ].join('\n')
}

const putText = ({ symbol, value, unit }: Put): string => `${symbol} = ${quantityText(value, unit)}`

/** Where it comes from, with the sign of how firm it is, never without its word. */
function restsText({ place, provenance, edition }: Source): string {
  const sign = SIGNS[provenance] ?? ''
  return `${place}${edition === undefined ? '' : `, ${edition}`} (${sign}${provenance})`
}

const SIGNS: Partial<Record<Source['provenance'], string>> = { read: '■ ', memory: '◧ ', 'common practice': '□ ' }
