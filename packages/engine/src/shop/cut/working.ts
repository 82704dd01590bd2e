import { type Put, put, type Step, source, step, type Working } from '../../kernel/index.ts'
import type { ExactPlan, ExactRequest } from './exact-plan.ts'

/** What of the answer the derivation ends in. */
interface Ended {
  readonly bound: number
  readonly boundKind: ExactPlan['boundKind']
  readonly costMoney: number | null
  readonly count: number | null
  readonly gap: number | null
  readonly ffdCount: number | null
}

interface Shown {
  readonly toLength: (whole: number) => number
  readonly toMoney: (whole: number) => number
  readonly kerf: number
  readonly trim: number
  /** Of length, as it is shown. */
  readonly unit: string
  readonly stocks: ExactRequest['stocks']
}

const ARITHMETIC = source('arithmetic', 'computed')
const KERF = source('kerf by substitution: capacity L + k, pieces l + k', 'computed')
const LINEAR = source('Gilmore and Gomory 1961, 1963: linear relaxation, its dual solution as proof', 'memory')
const SEARCH = source('every cheaper purchase looked at and ruled out', 'computed')
/** Piece worths printed one by one up to this many. */
const WORTHS_MOST = 30

/**
 * The derivation of count or cost: material bound, linear bound with the worths that prove it, bound, found, gap. Whoever wants to follow the
 * proof adds up count × worth, and tries to load a bar with more worth than it costs: it cannot be done.
 */
export function cutWorking(plan: ExactPlan, result: Ended, shown: Shown): Working {
  const { toLength, toMoney, kerf, trim, unit, stocks } = shown
  const money = plan.goal === 'money'
  const of = money ? 'money' : 'bars'
  const linear = (value: number): number => (money ? toMoney(value) : value)
  const total = plan.items.reduce((sum, item) => sum + item.count * item.length, 0)
  const pieces = plan.items.reduce((sum, item) => sum + item.count, 0)
  const kind = stocks.length === 1 ? [put('L', toLength(stocks[0]!.length), unit)] : []
  const found = money ? result.costMoney : result.count
  const worths: readonly Put[] = plan.items
    .slice(0, WORTHS_MOST)
    .flatMap((item, i) => (plan.worths[i] === undefined ? [] : [put(`v(${toLength(item.length)})`, linear(plan.worths[i]!), of)]))
  const more = plan.items.length > WORTHS_MOST ? [put('further v', `${plan.items.length - WORTHS_MOST}`)] : []
  const rents = plan.rents.flatMap((rent, j) =>
    rent > 0
      ? [
          put(`r(${toLength(stocks[j]!.length)})`, linear(rent), of),
          put(`N(${toLength(stocks[j]!.length)})`, stocks[j]!.count ?? 0),
        ]
      : [],
  )
  const steps: Step[] = [
    step('Σl', 'Σ (n · l)', [put('pieces', pieces), put('lengths', plan.items.length)], toLength(total), unit, ARITHMETIC),
    step(
      'B₁',
      money
        ? 'least money whose bars hold Σ (l + k)'
        : stocks.length === 1
          ? 'Σ (l + k) ÷ (L − 2t + k), rounded up'
          : 'fewest bars that hold Σ (l + k)',
      [put('k', kerf, unit), put('t', trim, unit), ...kind],
      linear(plan.materialBound),
      of,
      KERF,
    ),
  ]
  if (plan.linearBound !== null)
    steps.push(
      step(
        'B₂',
        rents.length === 0 ? 'Σ (n · v)' : 'Σ (n · v) − Σ (N · r)',
        [...worths, ...more, ...rents],
        linear(plan.linearBound),
        of,
        LINEAR,
      ),
    )
  steps.push(
    step(
      'B',
      BOUND_WORDS[plan.boundKind],
      [],
      result.bound,
      of,
      plan.boundKind === 'search' ? SEARCH : plan.boundKind === 'linear' ? LINEAR : KERF,
    ),
  )
  const closing =
    found === null || result.gap === null
      ? []
      : [step('gap', 'found − B', [put('found', found, of), put('B', result.bound, of)], result.gap, of, ARITHMETIC)]
  return {
    id: 'cut/bound',
    title: money ? 'Least money for the stock' : 'Fewest bars of stock',
    steps: [...steps, ...closing],
    ...(found === null
      ? {}
      : {
          judgement: {
            demand: put('found', found, of),
            relation: '=' as const,
            limit: put('B', result.bound, of),
            tight: 'none',
            rests: ARITHMETIC,
          },
        }),
    crossCheck:
      result.ffdCount === null
        ? []
        : [step('FFD', 'longest piece first, into the first bar that holds it', [], result.ffdCount, 'bars', ARITHMETIC)],
    notes: [
      ...(plan.linearBound === null
        ? []
        : [
            `B₂: v is what one piece is worth. No bar can be loaded with more worth than it costs${money ? '' : ' (1)'}${rents.length === 0 ? '' : ' and its r'}, so no plan is below Σ (n · v)${rents.length === 0 ? '' : ' − Σ (N · r)'}.`,
          ]),
      ...(plan.proven || plan.outcome !== 'cut'
        ? []
        : ['The search was given up after its counted work: the plan holds, but a better one may exist within the gap.']),
      'Different ways to cut and the longest remnant are sought after the count, and not proven.',
    ],
  }
}

const BOUND_WORDS: Readonly<Record<ExactPlan['boundKind'], string>> = {
  material: 'B₁',
  linear: 'B₂, rounded up',
  search: 'the least that was not ruled out',
}
