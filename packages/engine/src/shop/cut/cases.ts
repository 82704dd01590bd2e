import { Fault } from '../../kernel/index.ts'
import { type CutAnswer, cutAnswer } from './cut-answer.ts'
import { readCutFile } from './cut-file.ts'

function answered(list: Readonly<Record<string, unknown>>): CutAnswer {
  const read = readCutFile(JSON.stringify(list))
  if (!read.ok) throw new Fault('shop/cut-case', read.problems)
  return cutAnswer(read.value)
}

/** A list as a file has it: the plan with its kerf, and the same without. */
function listed(given: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const answer = answered(given)
  return {
    bars: answer.count,
    cost: answer.cost,
    bars_without_kerf: answered({ ...given, kerf: 0 }).count,
    linear_bound: answer.linearBound,
    ffd: answer.ffdCount,
  }
}

/** Adapters of the published cases about cutting: the case's `given` in, our values under the keys of its `expect` out. */
export const cutCases: Record<string, (given: any) => Record<string, unknown>> = {
  'cut-01': ({ stick_mm, kerf_mm, piece_mm, demand }) => {
    const list = { stock_length: stick_mm, kerf: kerf_mm, items: [{ size: piece_mm, demand }] }
    const answer = answered(list)
    return {
      sticks: answer.count,
      per_stick: Math.max(...answer.patterns.map((pattern) => pattern.pieces.reduce((sum, one) => sum + one.count, 0))),
      without_kerf: answered({ ...list, kerf: 0 }).count,
    }
  },
  'cut-02': ({ instance: _, ...list }) => {
    const answer = answered(list)
    return { material_bound: answer.materialBound, optimum: answer.proven ? answer.count : null, ffd: answer.ffdCount }
  },
  'cut-03': listed,
  'cut-04': listed,
  'cut-05': listed,
  'cut-06': listed,
  'cut-07': listed,
  'cut-08': listed,
}
