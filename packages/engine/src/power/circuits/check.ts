import {
  type Basis,
  type Finding,
  type Judgement,
  judgeLower,
  judgeUpper,
  type Mend,
  type Provenance,
  type Put,
  put,
  type Source,
  type Step,
  type Verdict,
  type Working,
  weakest,
} from '../../kernel/index.ts'

/** One check before it has a subject: equal circuits share it. */
export interface Check {
  /** Second half of the finding code: `terminals`. */
  readonly what: string
  readonly title: string
  readonly verdict: Verdict
  readonly basis: Basis
  readonly demand: Put
  readonly limit: Put
  readonly relation: Judgement['relation']
  /** Room left as a share of the limit; null for yes/no and counts. */
  readonly marginFrac: number | null
  readonly tight: string
  readonly rests: Source
  readonly steps: readonly Step[]
  /** After the subject: “needs a device of at least 15.6 A; it has 20 A.” */
  readonly said: string
  /** Shock, fire, fault or demand: a row from memory that decides must be confirmed in the book. */
  readonly grave: boolean
  readonly assumed: readonly string[]
  readonly mends: readonly Mend[]
  readonly decides?: string
  /** Second, third … check of its kind on one subject. */
  readonly nth?: number
}

type Numbers = Pick<Check, 'what' | 'title' | 'basis' | 'rests' | 'steps' | 'said'> & {
  readonly demandA: number
  readonly limitA: number
  readonly unit?: string
  readonly symbols?: readonly [string, string]
  readonly tightFrac?: number
  readonly grave?: boolean
  readonly assumed?: readonly string[]
  readonly mends?: readonly Mend[]
}

const percent = (frac: number): string => (frac === 0 ? 'none' : `${Math.round(frac * 100)} %`)

/** Demand must not exceed the limit. */
export function upper(n: Numbers): Check {
  const tightFrac = n.tightFrac ?? 0
  return numbers(
    n,
    '≤',
    judgeUpper(n.demandA, n.limitA, tightFrac),
    n.limitA === 0 ? null : (n.limitA - n.demandA) / Math.abs(n.limitA),
    percent(tightFrac),
  )
}

/** Value must reach the limit. */
export function lower(n: Numbers): Check {
  const tightFrac = n.tightFrac ?? 0
  return numbers(
    n,
    '≥',
    judgeLower(n.demandA, n.limitA, tightFrac),
    n.limitA === 0 ? null : (n.demandA - n.limitA) / Math.abs(n.limitA),
    percent(tightFrac),
  )
}

function numbers(n: Numbers, relation: '≤' | '≥', verdict: Verdict, marginFrac: number | null, tight: string): Check {
  const [a, b] = n.symbols ?? ['I', 'I max']
  const unit = n.unit ?? 'A'
  return {
    what: n.what,
    title: n.title,
    verdict,
    basis: n.basis,
    demand: put(a, n.demandA, unit),
    limit: put(b, n.limitA, unit),
    relation,
    marginFrac: verdict === 'unknown' ? null : marginFrac,
    tight,
    rests: n.rests,
    steps: n.steps,
    said: n.said,
    grave: n.grave ?? true,
    assumed: n.assumed ?? [],
    mends: n.mends ?? [],
  }
}

type Words = Pick<Check, 'what' | 'title' | 'basis' | 'rests' | 'said' | 'verdict'> & {
  readonly found: string | number
  readonly wanted: string | number
  readonly unit?: string
  readonly relation?: Judgement['relation']
  readonly steps?: readonly Step[]
  readonly grave?: boolean
  readonly assumed?: readonly string[]
  readonly mends?: readonly Mend[]
  readonly decides?: string
}

/** A check of kinds or counts: found against wanted, no margin. */
export function worded(n: Words): Check {
  return {
    what: n.what,
    title: n.title,
    verdict: n.verdict,
    basis: n.basis,
    demand: put('found', n.found, n.unit ?? ''),
    limit: put('wanted', n.wanted, n.unit ?? ''),
    relation: n.relation ?? '=',
    marginFrac: null,
    tight: 'none',
    rests: n.rests,
    steps: n.steps ?? [],
    said: n.said,
    grave: n.grave ?? true,
    assumed: n.assumed ?? [],
    mends: n.mends ?? [],
    ...(n.decides === undefined ? {} : { decides: n.decides }),
  }
}

export const provenanceOf = (check: Check): Provenance =>
  weakest(check.rests.provenance, ...check.steps.map((s) => s.rests.provenance))

/** What a check is called once it has a subject. */
export interface Subject {
  /** Tag of the thing: circuit, plug, panel. */
  readonly subject: string
  /** Prefix of working ids. */
  readonly prefix: string
}

/** Workings and findings of one question carry its name, so that no other question's can be the same. */
export const workingId = (subject: Subject, check: Pick<Check, 'what' | 'nth'>): string =>
  `${subject.prefix}/circuits-${check.what}${check.nth === undefined ? '' : `-${check.nth}`}`

export function workingOf(subject: Subject, check: Check): Working {
  const { demand, limit, relation, tight, rests } = check
  return {
    id: workingId(subject, check),
    title: `${subject.subject}: ${check.title}`,
    steps: check.steps,
    judgement: { demand, relation, limit, tight, rests },
  }
}

export function findingOf(subject: Subject, check: Check): Finding {
  const provenance = provenanceOf(check)
  return {
    code: `circuits/${check.what}`,
    question: 'circuits',
    subject: subject.subject,
    verdict: check.verdict,
    basis: check.basis,
    said: `${subject.subject} ${check.said}`,
    demand: check.demand,
    limit: check.limit,
    provenance,
    ...(check.grave && provenance === 'memory' ? { confirm: true } : {}),
    assumed: check.assumed,
    workings: [workingId(subject, check)],
    mends: check.mends,
    ...(check.decides === undefined ? {} : { decides: check.decides }),
  }
}

/** As people read an ampere or a share: three digits are enough, and never rounded towards what holds is asked by the caller. */
export const shown = (n: number): string =>
  (Math.abs(n) >= 100 ? n.toFixed(0) : Math.abs(n) >= 10 ? n.toFixed(1) : n.toFixed(2)).replace(/\.0+$/, '')
