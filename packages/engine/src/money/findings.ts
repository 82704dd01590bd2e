import { type Finding, judgeUpper, put, type Verdict } from '../kernel/index.ts'
import type { MoneyInputs } from './answer.ts'
import { toldOf } from './rates.ts'
import type { Comparison, MoneyResult } from './result.ts'
import { marginWords, moneyWords, percentWords } from './words.ts'

type Of = Omit<Finding, 'question' | 'subject' | 'basis' | 'mends' | 'assumed' | 'workings'> &
  Partial<Pick<Finding, 'subject' | 'assumed' | 'workings' | 'mends'>>

const found = (of: Of): Finding => ({
  ...{ question: 'money', subject: 'job', basis: 'house', assumed: [], workings: [], mends: [] },
  ...of,
})

/** What money says of itself. A price that is not whole is never called one. */
export function judgeMoney(result: MoneyResult, inputs: MoneyInputs): readonly Finding[] {
  return [
    ...judgeCost(result),
    ...judgeLacking(result),
    ...judgeBeside(result),
    ...judgeAges(result, inputs),
    ...judgeMargin(result, inputs),
    ...judgeTax(result),
    ...judgeSpread(result, inputs),
    ...judgeBudget(result, inputs),
    ...judgeNewBox(result, inputs),
    ...judgeRent(result, inputs),
    ...(result.comparison === null ? [] : judgeComparison(result.comparison, result, inputs)),
  ]
}

function judgeCost({ price, lines, currency, groups }: MoneyResult): readonly Finding[] {
  const known = lines.filter((l) => l.money !== null).length
  if (known === 0)
    return [
      found({
        code: 'money/cost',
        verdict: 'unknown',
        said: 'Nothing is priced yet: no box was laid out.',
        provenance: 'computed',
      }),
    ]
  const of = groups.map((g) => `${g.group} ${moneyWords(g.money, currency)}`).join(', ')
  return [
    found({
      code: 'money/cost',
      verdict: price.isFloor ? 'unknown' : 'holds',
      said: `It costs the shop ${price.isFloor ? 'at least ' : ''}${moneyWords(price.costMoney, currency)}: ${of}.`,
      demand: put('cost', price.costMoney, currency),
      provenance: 'told',
      workings: ['job/cost'],
    }),
  ]
}

const MOST_NAMED = 6

function judgeLacking({ lacking }: MoneyResult): readonly Finding[] {
  if (lacking.length === 0) return []
  const named = lacking.slice(0, MOST_NAMED).map((l) => `${l.what} (${l.why})`)
  const rest = lacking.length - named.length
  return [
    found({
      code: 'money/price-missing',
      verdict: 'unknown',
      said: `Without a price and in no sum; what they belong to is a floor: ${named.join('; ')}${rest > 0 ? `; and ${rest} more` : ''}.`,
      provenance: 'computed',
    }),
  ]
}

function judgeBeside({ beside, currency }: MoneyResult): readonly Finding[] {
  return beside.map((b) =>
    found({
      code: 'money/currency',
      subject: b.currency,
      verdict: 'unknown',
      said: `${moneyWords(b.money, b.currency)} stand beside and are not added to ${currency}: ${b.what.slice(0, MOST_NAMED).join(', ')}${b.what.length > MOST_NAMED ? ' and more' : ''}. A price table in ${currency} makes the price whole.`,
      provenance: 'told',
    }),
  )
}

function judgeAges({ aged, day, rows }: MoneyResult, { policy }: MoneyInputs): readonly Finding[] {
  if (rows.length === 0) return []
  const assumed = policy.assumed.filter((path) => path.endsWith('price-age'))
  const undated = aged.filter((r) => r.days === null)
  const old = aged.filter((r) => r.days !== null)
  const parts = [
    ...(old.length === 0
      ? []
      : [
          `${old.length} of ${rows.length} prices are older than ${policy.oldAfterDays} days on ${day}; the oldest is ${old[0]!.id}, of ${old[0]!.date}.`,
        ]),
    ...(undated.length === 0
      ? []
      : [
          `Without a date: ${undated
            .map((r) => r.id)
            .slice(0, MOST_NAMED)
            .join(', ')}.`,
        ]),
    ...(day === null ? ['How old the prices are was not judged: nobody told the day of the order.'] : []),
  ]
  return [
    found({
      code: 'money/price-age',
      verdict: day === null || undated.length > 0 ? 'unknown' : old.length > 0 ? 'tight' : 'holds',
      said:
        parts.length === 0 ? `All ${rows.length} prices are at most ${policy.oldAfterDays} days old on ${day}.` : parts.join(' '),
      provenance: 'told',
      assumed,
    }),
  ]
}

function judgeMargin({ price, currency }: MoneyResult, { policy }: MoneyInputs): readonly Finding[] {
  if (price.costMoney === 0) return []
  if (price.marginFrac === null || price.priceMoney === null)
    return [
      found({
        code: 'money/margin',
        verdict: 'unknown',
        said: 'Neither the job nor the shop says what margin is wanted: there is a cost and no price.',
        provenance: 'computed',
      }),
    ]
  const least = policy.marginFrac
  const below = least !== null && price.marginFrac < least - 1e-9
  const passed = price.passedMoney > 0 ? ` ${moneyWords(price.passedMoney, currency)} are passed through with no margin.` : ''
  const own = below ? ` The shop’s own is ${percentWords(least)}.` : ''
  return [
    found({
      code: 'money/margin',
      verdict: price.isFloor ? 'unknown' : below ? 'tight' : 'holds',
      said: `It sells for ${price.isFloor ? 'at least ' : ''}${moneyWords(price.priceMoney, currency)} before tax: ${marginWords(price.marginFrac, price.markUpFrac!)}.${passed}${own}`,
      demand: put('price', price.priceMoney, currency),
      provenance: 'told',
      workings: ['job/price'],
    }),
  ]
}

function judgeTax({ price, currency }: MoneyResult): readonly Finding[] {
  if (price.priceMoney === null || price.costMoney === 0) return []
  return [
    price.tax === null
      ? found({
          code: 'money/tax',
          verdict: 'unknown',
          said: 'The shop’s page names no tax: every price here is without it.',
          provenance: 'computed',
          decides: 'the tax office',
        })
      : found({
          code: 'money/tax',
          verdict: 'holds',
          said: `${price.tax.name}, ${percentWords(price.tax.frac)}: ${moneyWords(price.tax.money, currency)}; with it ${moneyWords(price.totalMoney ?? 0, currency)}. It is the shop’s own rate; where the box is handed over another may hold.`,
          provenance: 'told',
          decides: 'the tax office',
          workings: ['job/price'],
        }),
  ]
}

function judgeSpread(
  { spread, price, overCostFrac, lossFrac, currency }: MoneyResult,
  { policy }: MoneyInputs,
): readonly Finding[] {
  if (spread === null) return []
  const over = `the counted cost is passed in ${percentWords(overCostFrac ?? 0)} of the draws`
  const loss = lossFrac === null ? '' : `, and the job is done at a loss in ${percentWords(lossFrac)}`
  const verdict: Verdict = price.isFloor || lossFrac === null ? 'unknown' : judgeUpper(lossFrac, policy.lossChanceFrac)
  return [
    found({
      code: 'money/spread',
      verdict,
      said: `Eight times in ten the cost lies between ${moneyWords(spread.lowMoney, currency)} and ${moneyWords(spread.highMoney, currency)}, its middle ${moneyWords(spread.middleMoney, currency)}; ${over}${loss}.`,
      ...(lossFrac === null
        ? {}
        : {
            demand: put('chance of loss', lossFrac * 100, '%'),
            limit: put('taken by the shop', policy.lossChanceFrac * 100, '%'),
          }),
      provenance: 'told',
      assumed: policy.assumed.filter((path) => path.endsWith('loss-chance')),
      workings: ['job/spread'],
    }),
  ]
}

function judgeBudget({ price, currency }: MoneyResult, { job }: MoneyInputs): readonly Finding[] {
  const budget = toldOf(job).budgetMoney
  if (budget === null || price.totalMoney === null || price.costMoney === 0) return []
  const over = price.totalMoney > budget
  return [
    found({
      code: 'money/budget',
      verdict: price.isFloor && !over ? 'unknown' : judgeUpper(price.totalMoney, budget),
      said: `The price is ${price.isFloor ? 'at least ' : ''}${moneyWords(price.totalMoney, currency)}; ${moneyWords(budget, currency)} may be spent.`,
      demand: put('price', price.totalMoney, currency),
      limit: put('budget', budget, currency),
      provenance: 'told',
      workings: ['job/price'],
    }),
  ]
}

/** A box that stands already: what building one anew would cost, beside what the caller was told a new one costs. */
function judgeNewBox({ price, currency }: MoneyResult, { job }: MoneyInputs): readonly Finding[] {
  const told = toldOf(job).newBoxMoney
  if (told === null || price.priceMoney === null || price.costMoney === 0) return []
  const under = price.priceMoney - price.passedMoney - told
  return [
    found({
      code: 'money/new-box',
      verdict: price.isFloor ? 'unknown' : 'holds',
      said: `A new, fitted box was said to cost ${moneyWords(told, currency)}; this design built new sells for ${price.isFloor ? 'at least ' : ''}${moneyWords(price.priceMoney - price.passedMoney, currency)}, ${moneyWords(Math.abs(under), currency)} ${under > 0 ? 'more' : 'less'}. What changing a box that stands would cost is on its change list.`,
      demand: put('built new', price.priceMoney - price.passedMoney, currency),
      limit: put('told', told, currency),
      provenance: 'told',
      workings: ['job/price'],
    }),
  ]
}

function judgeRent({ rent, currency, lines }: MoneyResult, { policy, job }: MoneyInputs): readonly Finding[] {
  if (toldOf(job).buyOrRent === 'buy' || lines.every((l) => l.money === null)) return []
  if (rent === null)
    return [
      found({
        code: 'money/rent',
        verdict: 'unknown',
        said: policy.rent === null ? 'The shop’s page says nothing of rent.' : 'No margin was told: there is no rent.',
        provenance: 'computed',
      }),
    ]
  const period = rent.periodDays === 28 ? '28 days' : `${Number(rent.periodDays.toFixed(2))} days`
  const without = job.money.interestFrac === null ? ' Interest was not told and is not counted.' : ''
  return [
    found({
      code: 'money/rent',
      verdict: rent.isFloor ? 'unknown' : 'holds',
      said: `Rent ${rent.isFloor ? 'at least ' : ''}${moneyWords(rent.rateMoney, currency)} for ${period}, out ${Number(rent.periodsOutCount.toFixed(2))} of ${rent.periodsPerYearCount} periods a year (${rent.outBecause}); haul each way apart. The rule of thumb, 5 % of the cost, says ${moneyWords(rent.thumbMoney, currency)}.${without}`,
      demand: put('rate', rent.rateMoney, currency),
      provenance: 'told',
      assumed: job.money.interestFrac === null ? ['needs.money.interest'] : [],
      workings: ['job/rent'],
    }),
  ]
}

/** Which way is the least where winters are mild or hard, by the same flows. */
function winterWords({ ways, winters }: Comparison): string {
  if (winters === null || ways.length === 0) return ''
  const least = (money: (w: Comparison['ways'][number]) => number): string =>
    ways.toSorted((a, b) => money(a) - money(b))[0]!.what
  const [mild, hard] = [least((w) => w.winters!.mildMoney), least((w) => w.winters!.hardMoney)]
  const same = mild === ways[0]!.what && hard === mild
  return same ? ' So it is in mild and in hard winters.' : ` In mild winters it is to ${mild}, in hard ones to ${hard}.`
}

function judgeComparison(c: Comparison, { currency }: MoneyResult, { job }: MoneyInputs): readonly Finding[] {
  const [best, ...rest] = c.ways
  const assumed = c.interestTold ? [] : ['needs.money.interest']
  const payback = c.pairs.map((p) => {
    const name = (id: string) => c.ways.find((w) => w.id === id)?.what ?? id
    return p.paybackMonths === null
      ? `${name(p.dear)} does not pay back against ${name(p.other)} within the stay`
      : p.paybackMonths === 0
        ? `${name(p.dear)} never costs more than ${name(p.other)}`
        : `${name(p.dear)} has paid back against ${name(p.other)} from month ${p.paybackMonths} on`
  })
  const open =
    c.lacking.length === 0
      ? ''
      : ` Not compared: ${c.lacking
          .slice(0, MOST_NAMED)
          .map((l) => `${l.what} (${l.why})`)
          .join('; ')}.`
  return [
    best === undefined
      ? found({
          code: 'money/compare',
          verdict: 'unknown',
          said: `No way to go could be priced for the customer.${open}`,
          provenance: 'computed',
        })
      : found({
          code: 'money/compare',
          verdict: best.isFloor || rest.length === 0 ? 'unknown' : 'holds',
          said: `Over ${Number(job.needs.stayMonths.toFixed(1))} months the least, worth today, is to ${best.what}: ${moneyWords(best.presentMoney, currency)}${best.but === '' ? '' : ` (but ${best.but})`}${
            rest.length === 0
              ? ''
              : `; then ${rest
                  .slice(0, 3)
                  .map((w) => `${w.what} ${moneyWords(w.presentMoney, currency)}${w.but === '' ? '' : ` (but ${w.but})`}`)
                  .join('; ')}`
          }.${winterWords(c)}${open}`,
          provenance: 'told',
          assumed,
          workings: ['job/compare'],
        }),
    ...(payback.length === 0
      ? []
      : [
          found({
            code: 'money/payback',
            verdict: best?.isFloor ? 'unknown' : 'holds',
            said: `${payback.join('. ')}.`.replace(/(^|\. )(\w)/g, (_, a: string, b: string) => a + b.toUpperCase()),
            provenance: 'computed',
            workings: ['job/compare'],
          }),
        ]),
    ...c.habits.map((h) =>
      found({
        code: HABIT_CODES[h.id],
        subject: h.box,
        verdict: 'holds',
        said:
          h.id === 'timers'
            ? `Timers against all night: ${moneyWords(h.monthMoney, currency)} less in a full month, ${moneyWords(h.yearMoney, currency)} a year; ${Math.round(h.otherEnergyKWh - h.energyKWh)} kWh a month are not used.`
            : `Staged starts against all at once: ${h.otherPeakKW.toFixed(1)} kW down to ${h.peakKW.toFixed(1)} kW, ${moneyWords(h.monthMoney, currency)} less in a full month, ${moneyWords(h.yearMoney, currency)} a year.`,
        demand: put('a year', h.yearMoney, currency),
        provenance: 'told',
        workings: [h.working],
      }),
    ),
  ]
}

const HABIT_CODES = { timers: 'money/timers', staging: 'money/staging' } as const
