import { partsInCents, roundedMoney, wholeCents } from './cents.ts'
import { WARRANTED } from './cost.ts'
import type { Draft } from './lines.ts'
import { markUpFrac, priceFrom } from './margin.ts'
import type { MoneyPolicy } from './policy.ts'
import { type Beside, COST_GROUPS, type CostGroup, type CostLine, type MoneyResult, type Price } from './result.ts'
import { type Drawn, type Spread, spreadOf } from './simulate.ts'

export interface Settled {
  readonly lines: readonly CostLine[]
  readonly groups: readonly { readonly group: CostGroup; readonly money: number }[]
  readonly beside: readonly Beside[]
}

/** Lines in one currency in whole cents that sum to the rounded sum; another currency stands beside and is in no sum. */
export function settled(drafts: readonly Draft[], currency: string): Settled {
  const ordered = COST_GROUPS.flatMap((group) => drafts.filter((l) => l.group === group))
  const counts = (l: Draft): boolean => l.currency === currency && l.likelyMoney !== null
  const cents = partsInCents(ordered.filter(counts).map((l) => l.likelyMoney!))
  let at = 0
  const lines = ordered.map((l): CostLine => ({ ...l, money: counts(l) ? cents[at++]! / 100 : null }))
  const others = Map.groupBy(
    lines.filter((l) => l.likelyMoney !== null && l.currency !== currency),
    (l) => l.currency,
  )
  return {
    lines,
    groups: COST_GROUPS.flatMap((group) => {
      const own = lines.filter((l) => l.group === group && l.money !== null)
      return own.length === 0 ? [] : [{ group, money: sumOf(own.map((l) => l.money!)) }]
    }),
    beside: [...others].map(([of, own]) => ({
      currency: of,
      money: roundedMoney(own.reduce((a, l) => a + l.likelyMoney!, 0)),
      what: [...new Set(own.map((l) => l.what))],
    })),
  }
}

/** In whole cents, so that no last bit is left over. */
export const sumOf = (all: readonly number[]): number => all.reduce((sum, money) => sum + wholeCents(money), 0) / 100

/** What is asked: cost that bears the margin over what the margin leaves, what is passed through as it is, the tax on the whole. */
export function pricedFrom(
  { lines }: Settled,
  of: { readonly policy: MoneyPolicy; readonly jobMarginFrac: number | null; readonly isFloor: boolean },
): Price {
  const money = (test: (l: CostLine) => boolean) => sumOf(lines.filter(test).map((l) => l.money ?? 0))
  const passedMoney = money((l) => l.group === 'fees')
  const bearingMoney = money((l) => l.group !== 'fees')
  const costMoney = sumOf([bearingMoney, passedMoney])
  const marginFrac = of.jobMarginFrac ?? of.policy.marginFrac
  const { tax } = of.policy
  if (marginFrac === null)
    return {
      ...{ costMoney, bearingMoney, passedMoney, marginFrac, marginFrom: null, markUpFrac: null, marginMoney: null },
      ...{ priceMoney: null, tax: null, totalMoney: null, isFloor: of.isFloor },
    }
  const priceMoney = sumOf([roundedMoney(priceFrom(bearingMoney, marginFrac)), passedMoney])
  const taxMoney = tax === null ? null : roundedMoney(priceMoney * tax.frac)
  return {
    ...{ costMoney, bearingMoney, passedMoney, marginFrac },
    marginFrom: of.jobMarginFrac === null ? 'the shop' : 'the job',
    markUpFrac: markUpFrac(marginFrac),
    marginMoney: sumOf([priceMoney, -costMoney]),
    priceMoney,
    tax: tax === null || taxMoney === null ? null : { ...tax, money: taxMoney },
    totalMoney: sumOf([priceMoney, taxMoney ?? 0]),
    isFloor: of.isFloor,
  }
}

/** What the customer is asked for, part by part, before tax: each with its share of the margin, summing to the price to the cent. */
export function askedParts({ lines, price }: Pick<MoneyResult, 'lines' | 'price'>): readonly Asked[] {
  if (price.priceMoney === null || price.marginFrac === null) return []
  const cost = (test: (l: CostLine) => boolean): number =>
    lines.filter((l) => l.money !== null && test(l)).reduce((a, l) => a + l.money!, 0)
  const haul = cost((l) => l.group === 'haul')
  const exact = [price.bearingMoney - haul, haul].map((money) => priceFrom(money, price.marginFrac!))
  const [box, way] = partsInCents(exact) as [number, number]
  return [
    { of: 'box', money: box / 100 },
    ...(haul === 0 ? [] : [{ of: 'haul' as const, money: way / 100 }]),
    ...(price.passedMoney === 0 ? [] : [{ of: 'fees' as const, money: price.passedMoney }]),
  ]
}

export interface Asked {
  readonly of: 'box' | 'haul' | 'fees'
  readonly money: number
}

/** What is drawn: lines that move together as one, the warranty moving with what it is a share of. Firm lines are one lump. */
export function drawnThings(lines: readonly CostLine[], warrantyFrac: number): readonly Drawn[] {
  const counted = lines.filter((l) => l.money !== null && l.group !== 'warranty')
  const weight = (l: CostLine): number => (WARRANTED.has(l.group) ? 1 + warrantyFrac : 1)
  return [...Map.groupBy(counted, (l) => l.drawnWith ?? '')].map(([what, own]): Drawn => {
    const sum = (of: (l: CostLine) => number): number => own.reduce((a, l) => a + weight(l) * of(l), 0)
    const risk = own[0]!.group === 'risk'
    const likely = risk ? own[0]!.unitMoney! * 3 - own[0]!.lowMoney! - own[0]!.highMoney! : sum((l) => l.likelyMoney!)
    return {
      what: what === '' ? 'firm' : what,
      chanceFrac: own[0]!.chanceFrac,
      triangle: ordered(
        sum((l) => l.lowMoney!),
        likely,
        sum((l) => l.highMoney!),
      ),
    }
  })
}

/** The same sum taken three times may differ in its last bit. */
const ordered = (low: number, likely: number, high: number) => ({
  lowMoney: Math.min(low, likely),
  likelyMoney: likely,
  highMoney: Math.max(high, likely),
})

/** Draws of a price: enough that a tenth is known to half a percent. */
export const DRAWS = 10_000
const SEED = 1

export function costSpread(things: readonly Drawn[], above: readonly number[], drawsCount = DRAWS): Spread | null {
  return things.length === 0 ? null : spreadOf(things, { drawsCount, seed: SEED, above })
}
