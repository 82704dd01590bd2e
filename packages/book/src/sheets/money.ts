import { type Finding, formatNumber, QUESTION_WORDS, THIN } from '@plugstead/engine/kernel'
import { type MoneyResult, marginWords, percentWords } from '@plugstead/engine/money'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput } from '../results.ts'
import { col, marked, plain, right, worstFirst } from '../words.ts'

/** To the cent, grouped: 37 091.11 USD. */
export function toCent(money: number, currency: string): string {
  const [whole = '0', part = '00'] = Math.abs(money).toFixed(2).split('.')
  return `${money < 0 ? '−' : ''}${formatNumber(Number(whole))}.${part}${currency === '' ? '' : `${THIN}${currency}`}`
}

/** What it costs, sells for and rents for, and what else the customer could do. */
export function moneySheets({ assessment, glass }: BookInput): readonly Sheet[] {
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
        ...(glass === undefined ? costBlocks(money) : priceBlocks(money)),
        ...(glass === undefined ? priceBlocks(money) : costBlocks(money)),
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

function priceBlocks({ price, currency, spread, beside, options }: MoneyResult): readonly Block[] {
  const floor = price.isFloor ? 'at least ' : ''
  return [
    { k: 'head', text: 'Price' },
    {
      k: 'facts',
      rows: [
        ['cost', `${floor}${toCent(price.costMoney, currency)}`],
        ...beside.map((b): [Inline, Inline] => ['beside, never added', toCent(b.money, b.currency)]),
        ...(price.priceMoney === null || price.marginFrac === null
          ? ([['price', 'no margin was told']] as const)
          : ([
              ['margin', marginWords(price.marginFrac, price.markUpFrac ?? 0)],
              ['margin in money', toCent(price.marginMoney ?? 0, currency)],
              ['price before tax', [['b', `${floor}${toCent(price.priceMoney, currency)}`]]],
              ...(price.tax === null
                ? ([['tax', 'none was told']] as const)
                : ([
                    [`${price.tax.name}, ${percentWords(price.tax.frac)}`, toCent(price.tax.money, currency)],
                    ['price with tax', [['b', `${floor}${toCent(price.totalMoney ?? 0, currency)}`]]],
                  ] as const)),
            ] as const)),
        ...(spread === null
          ? []
          : ([
              ['cost, one in ten below', toCent(spread.lowMoney, currency)],
              ['cost, half below', toCent(spread.middleMoney, currency)],
              ['cost, one in ten above', toCent(spread.highMoney, currency)],
            ] as const)),
        ...options.map((o): [Inline, Inline] => [
          plain(`option: ${o.what}`),
          o.priceMoney === null ? `not priced: ${o.why}` : `${toCent(o.priceMoney, currency)} before tax, in no sum`,
        ]),
      ],
    },
  ]
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
      note: `over ${formatNumber(comparison.stayMonths)} months at ${percentWords(comparison.interestFrac)} a year${comparison.interestTold ? '' : ' (no interest was told)'}`,
    },
    {
      k: 'table',
      columns: [col('way', -1.6), right('paid in all', 30), right('worth today', 30), col('but', -1)],
      rows: comparison.ways.map((w): Inline[] => [
        plain(w.what),
        `${w.isFloor ? 'at least ' : ''}${toCent(w.paidMoney, currency)}`,
        `${w.isFloor ? 'at least ' : ''}${toCent(w.presentMoney, currency)}`,
        plain(w.but),
      ]),
    },
  ]
}
