import { priceStack } from '@plugstead/drawings'
import { type Finding, formatNumber, QUESTION_WORDS, THIN } from '@plugstead/engine/kernel'
import { type MoneyResult, marginWords, percentWords } from '@plugstead/engine/money'
import type { Block, Inline, Sheet } from '../content.ts'
import { type BookInput, widthOf } from '../results.ts'
import { col, marked, plain, right, worstFirst } from '../words.ts'

/** To the cent, grouped: 37 091.11 USD. */
export function toCent(money: number, currency: string): string {
  const [whole = '0', part = '00'] = Math.abs(money).toFixed(2).split('.')
  return `${money < 0 ? '−' : ''}${formatNumber(Number(whole))}.${part}${currency === '' ? '' : `${THIN}${currency}`}`
}

/** What it costs, sells for and rents for, and what else the customer could do. */
export function moneySheets(input: BookInput): readonly Sheet[] {
  const { assessment, glass } = input
  const widthMm = widthOf(input)
  const money = assessment.results.money
  if (money.lines.every((l) => l.money === null)) return []
  const own = worstFirst(assessment.findings.filter((f) => f.question === 'money'))
  return [
    {
      part: 'money',
      head: QUESTION_WORDS.money,
      sub: 'for the shop, not for the customer: what it costs stands here',
      scale: 'not to scale',
      key: true,
      blocks: [
        // On glass the price comes first, and what was found hangs on the tag.
        ...(glass === undefined ? costBlocks(money) : priceBlocks(money, widthMm)),
        ...(glass === undefined ? priceBlocks(money, widthMm) : costBlocks(money)),
        ...rentBlocks(money),
        ...wayBlocks(money),
        ...(glass === undefined ? foundBlocks(own) : []),
      ],
    },
  ]
}

const foundBlocks = (own: readonly Finding[]): readonly Block[] => [
  { k: 'head', text: 'What is so' },
  {
    k: 'table',
    small: true,
    columns: [col('', 20), col('finding', 34), col('what is so', -1)],
    rows: own.map((f): Inline[] => [marked(f.verdict, f.verdict), f.code, plain(f.said)]),
  },
]

function costBlocks(m: MoneyResult): readonly Block[] {
  return [
    { k: 'head', text: 'Cost', note: m.price.isFloor ? 'a floor: something is in no sum' : 'lines sum to the cost to the cent' },
    {
      k: 'table',
      small: true,
      columns: [
        col('group', 18),
        col('what', -1.4),
        right('quantity', 16),
        col('per', 12),
        right('each', 20),
        right(m.currency, 22),
        col('price of', 20),
        col('rests on', -1),
      ],
      rows: m.lines.map((l): Inline[] => [
        l.group,
        plain(l.what),
        formatNumber(l.quantity),
        l.per === 'm2' ? 'm²' : l.per,
        l.unitMoney === null ? 'not known' : toCent(l.unitMoney, ''),
        l.money === null
          ? l.likelyMoney === null
            ? 'not known'
            : [['quiet', `${toCent(l.likelyMoney, l.currency)}, beside`]]
          : toCent(l.money, ''),
        l.date,
        plain(l.rests.place),
      ]),
    },
  ]
}

/** From cost to price as a picture, and the same as a table; then what is beside and in no sum. */
function priceBlocks(money: MoneyResult, widthMm: number): readonly Block[] {
  const { price, currency, beside, options } = money
  return [
    { k: 'head', text: 'Price' },
    { k: 'drawing', scene: sceneOf(money, widthMm) },
    stackTable(money),
    {
      k: 'facts',
      rows: [
        ...(price.priceMoney === null || price.marginFrac === null
          ? ([['price', 'no margin was told']] as const)
          : ([['margin', marginWords(price.marginFrac, price.markUpFrac ?? 0)]] as const)),
        ...(price.priceMoney !== null && price.tax === null ? ([['tax', 'none was told']] as const) : []),
        ...beside.map((b): [Inline, Inline] => ['beside, never added', toCent(b.money, b.currency)]),
        ...options.map((o): [Inline, Inline] => [
          plain(`option: ${o.what}`),
          o.priceMoney === null ? `not priced: ${o.why}` : `${toCent(o.priceMoney, currency)} before tax, in no sum`,
        ]),
      ],
    },
  ]
}

const marginName = (frac: number): string => plain(`margin, ${percentWords(frac)} of price`)
const taxName = ({ name, frac }: NonNullable<MoneyResult['price']['tax']>): string => plain(`${name}, ${percentWords(frac)}`)

function sceneOf({ price, currency, groups, spread }: MoneyResult, widthMm: number): ReturnType<typeof priceStack> {
  const { priceMoney, marginFrac, marginMoney, tax, totalMoney } = price
  return priceStack({
    ...{ widthMm, currency, costMoney: price.costMoney, isFloor: price.isFloor },
    groups: groups.map((g) => ({ name: g.group, money: g.money })),
    margin:
      priceMoney === null || marginFrac === null ? null : { words: marginName(marginFrac), money: marginMoney ?? 0, priceMoney },
    tax: tax === null || totalMoney === null ? null : { words: taxName(tax), money: tax.money, totalMoney },
    range: spread,
    workings: { cost: 'job/cost', price: 'job/price', range: 'job/spread' },
  })
}

function stackTable({ price, currency, groups, spread }: MoneyResult): Block {
  const floor = price.isFloor ? 'at least ' : ''
  const of = (money: number): string => (price.priceMoney === null ? '' : percentWords(money / price.priceMoney))
  const part = (name: string, money: number): readonly Inline[] => [plain(name), toCent(money, ''), of(money)]
  const sum = (name: string, money: number): readonly Inline[] => [
    [['b', name]],
    [['b', `${floor}${toCent(money, '')}`]],
    of(money),
  ]
  return {
    k: 'table',
    small: true,
    columns: [col('from cost to price', -1), right(currency, 34), right('of the price before tax', 38)],
    rows: [
      ...groups.map((g) => part(g.group, g.money)),
      sum('cost', price.costMoney),
      ...(price.priceMoney === null || price.marginFrac === null
        ? []
        : [part(marginName(price.marginFrac), price.marginMoney ?? 0), sum('price before tax', price.priceMoney)]),
      ...(price.tax === null ? [] : [part(taxName(price.tax), price.tax.money), sum('price with tax', price.totalMoney ?? 0)]),
      ...(spread === null
        ? []
        : [
            part('cost, one draw in ten below', spread.lowMoney),
            part('cost, half of the draws below', spread.middleMoney),
            part('cost, one draw in ten above', spread.highMoney),
          ]),
    ],
  }
}

function rentBlocks({ rent, currency }: MoneyResult): readonly Block[] {
  if (rent === null) return []
  return [
    {
      k: 'head',
      text: 'Rent',
      note: `a period of ${formatNumber(rent.periodDays)} days, ${rent.isFloor ? 'a floor, ' : ''}before tax`,
    },
    {
      k: 'facts',
      rows: [
        ['rate of a period', [['b', toCent(rent.rateMoney, currency)]]],
        ['out', `${formatNumber(rent.periodsOutCount)} of ${rent.periodsPerYearCount} periods a year: ${rent.outBecause}`],
        [
          'a year must bring',
          `${toCent(rent.yearMoney, currency)}: recovery ${toCent(rent.recoveryMoney, '')}, insurance ${toCent(rent.insuranceMoney, '')}, upkeep ${toCent(rent.upkeepMoney, '')}, turn-round ${toCent(rent.turnRoundMoney, '')}`,
        ],
        ['the stay', `${rent.periodsAskedCount} periods, ${toCent(rent.stayMoney, currency)}`],
        ['deposit', toCent(rent.depositMoney, currency)],
        ['haul each way', rent.haulEachWayMoney === null ? 'not known' : toCent(rent.haulEachWayMoney, currency)],
        [
          'measures',
          `rent of a year over cost ${percentWords(rent.moneyUseFrac)}, time out ${percentWords(rent.timeUseFrac)}, it earns ${rent.returnFrac === null ? 'nothing' : `${percentWords(rent.returnFrac)} a year`}`,
        ],
      ],
    },
  ]
}

function wayBlocks({ comparison, currency }: MoneyResult): readonly Block[] {
  if (comparison === null || comparison.ways.length === 0) return []
  return [
    {
      k: 'head',
      text: 'What the customer could do',
      note: `over ${formatNumber(comparison.stayMonths)} months at ${percentWords(comparison.interestFrac)} a year${comparison.interestTold ? '' : ' (no interest was told)'}${comparison.winters === null ? '' : `; heaters run ${formatNumber(comparison.winters.mildH)}, ${formatNumber(comparison.winters.middleH)}, ${formatNumber(comparison.winters.hardH)} h in a mild, usual, hard winter`}`,
    },
    {
      k: 'table',
      columns: [
        col('way', -1.6),
        right('paid in all', 30),
        right('worth today', 30),
        ...(comparison.winters === null ? [] : [right('mild winters', 26), right('hard winters', 26)]),
        col('but', -1),
      ],
      rows: comparison.ways.map((w): Inline[] => [
        plain(w.what),
        `${w.isFloor ? 'at least ' : ''}${toCent(w.paidMoney, currency)}`,
        `${w.isFloor ? 'at least ' : ''}${toCent(w.presentMoney, currency)}`,
        ...(comparison.winters === null ? [] : [toCent(w.winters!.mildMoney, currency), toCent(w.winters!.hardMoney, currency)]),
        plain(w.but),
      ]),
    },
  ]
}
