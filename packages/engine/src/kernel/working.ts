import type { Source } from './provenance.ts'

/** A number that was put into an expression. */
export interface Put {
  readonly symbol: string
  readonly value: number | string
  readonly unit: string
}

/** One line of a derivation: symbol, expression, values put in, result, what it rests on. */
export interface Step {
  readonly symbol: string
  readonly expression: string
  readonly values: readonly Put[]
  readonly result: number | string
  readonly unit: string
  readonly rests: Source
}

/** The last line: demand against limit. */
export interface Judgement {
  readonly demand: Put
  readonly relation: '≤' | '≥' | '='
  readonly limit: Put
  /** How near the limit counts as tight, in the words a person reads: “10 %”, “none”. */
  readonly tight: string
  readonly rests: Source
}

/** The derivation that a licensed person can follow line by line. */
export interface Working {
  /** Unique in an assessment, `subject/what`: `G4C/drop`, `P1/interrupting`. */
  readonly id: string
  readonly title: string
  readonly steps: readonly Step[]
  readonly judgement?: Judgement
  /** For a solver's result: residual or bound, and the hand formula beside it. */
  readonly crossCheck?: readonly Step[]
  readonly notes?: readonly string[]
}

/** A value together with the lines it was worked out by. */
export interface Worked<T> {
  readonly value: T
  readonly steps: readonly Step[]
}

export const put = (symbol: string, value: number | string, unit = ''): Put => ({ symbol, value, unit })

export function step(
  symbol: string,
  expression: string,
  values: readonly Put[],
  result: number | string,
  unit: string,
  rests: Source,
): Step {
  return { symbol, expression, values, result, unit, rests }
}
