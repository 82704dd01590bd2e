import type { Assessment } from '@plugstead/engine/assess'
import type { Design, Job } from '@plugstead/engine/job'
import { formatNumber, type Verdict } from '@plugstead/engine/kernel'
import { agedRows, askedParts, dayAfterDays, type MoneyResult, percentWords, type Rent } from '@plugstead/engine/money'
import type { RuleSet } from '@plugstead/engine/rules'
import type { Block, BookContent, Inline, Sheet, Span } from './content.ts'
import { toCent } from './sheets/money.ts'
import { col, plain, right } from './words.ts'

export interface OfferInput {
  readonly job: Job
  readonly design: Design
  readonly assessment: Assessment
  readonly rules: RuleSet
  readonly shopName: string
  /** `2027-07-10`; null: undated, and then it binds nobody. */
  readonly day: string | null
  /** With the schedule of rent. */
  readonly rent: boolean
}

/** An offer on one sheet, and the schedule of rent where it is asked for. What it costs the shop stands on neither. */
export function offerContent(of: OfferInput): BookContent {
  const { job, rules, assessment } = of
  const rent = assessment.results.money.rent
  return {
    title: job.title,
    tag: [`${job.invented ? 'invented data; ' : ''}${of.shopName}`, rules.title, of.day === null ? 'not dated' : `of ${of.day}`],
    rules: `rule set ${rules.id}`,
    sheets: [offerSheet(of), ...(of.rent && rent !== null ? [rentSheet(of, rent)] : [])],
  }
}

const NAMED = 5

function offerSheet(of: OfferInput): Sheet {
  const { job, assessment, day } = of
  const money = assessment.results.money
  const until = day === null ? null : dayAfterDays(day, money.validDays)
  return {
    part: 'offer',
    head: `Offer: ${money.price.isFloor ? 'a price that is not whole yet' : 'price and what it holds'}`,
    sub: subOf(of),
    scale: 'not to scale',
    key: false,
    blocks: [
      ...heldBack(of, 'sum'),
      ...(day === null ? [{ k: 'strip' as const, text: 'Not dated: it binds nobody until it is dated and signed.' }] : []),
      toBlock(of),
      ...askedBlocks(money),
      {
        k: 'lists',
        lists: [
          { title: 'Holds', items: included(of) },
          { title: 'Does not hold', items: excluded(of) },
        ],
      },
      { k: 'head', text: 'Terms' },
      {
        k: 'facts',
        rows: [
          ['valid', validWords(money, until === null ? null : `until ${until}; then ask again: copper moves`)],
          [
            'paid',
            money.orderDepositFrac === null
              ? [NOT_TOLD, ': agreed when it is ordered']
              : `${percentWords(money.orderDepositFrac)} with the order, the rest when it is handed over`,
          ],
          ['prices of', pricesOf(money)],
          [
            'ready',
            job.needs.neededBy === null
              ? [NOT_TOLD, ': the day is agreed with the order']
              : `asked for ${job.needs.neededBy}; the day is confirmed with the order`,
          ],
          ...openRow(of),
          [
            'who decides',
            'The authority having jurisdiction may ask for more; what it asks for is charged as it comes. A licensed person connects it.',
          ],
          ['accepted', `name, day, signature: ${'.'.repeat(90)}`],
        ],
      },
      ...assumedBlock(assessment),
    ],
  }
}

const NOT_TOLD: Span = ['assumed', 'not told']

const subOf = ({ shopName, job }: OfferInput): string =>
  plain(`${shopName} to ${job.needs.customer ?? 'the owner'} of: ${job.title}`)

/** Who offers, to whom, on which day. */
const toBlock = ({ shopName, job, day }: OfferInput): Block => ({
  k: 'facts',
  rows: [
    ['from', plain(shopName)],
    ['to', job.needs.customer == null ? [NOT_TOLD, ': write the name here'] : [['b', plain(job.needs.customer)]]],
    ['for', plain(job.title)],
    ['of', day ?? [NOT_TOLD]],
  ],
})

const validWords = ({ validDays, validTold }: MoneyResult, until: string | null): Inline =>
  validTold
    ? (until ?? `${validDays} days from its date`)
    : [['assumed', until ?? `${validDays} days from its date`], ' (nobody told how long: the usual)']

/** What keeps it from being sent, across the sheet: a price that is not whole, a design that does not hold, prices that are old. */
function heldBack({ assessment, day }: OfferInput, of: 'sum' | 'rate'): readonly Block[] {
  const { price, rent, rows, aged, oldAfterDays } = assessment.results.money
  const old = day === null ? aged.length : agedRows(rows, { day, oldAfterDays }).length
  const failing = questionsThat(assessment, 'fails')
  const isFloor = of === 'rate' ? (rent?.isFloor ?? true) : price.isFloor || price.priceMoney === null
  return [
    ...(isFloor ? [`Not to be sent: something has no price or stands in another currency. The ${of} is a floor.`] : []),
    ...(failing.length > 0
      ? [`Not to be sent as it stands: ${failing.join(', ')} ${failing.length === 1 ? 'fails' : 'fail'}.`]
      : []),
    ...(old > 0 ? [`Ask the suppliers before this is sent: ${old} of ${rows.length} prices are old.`] : []),
  ].map((text) => ({ k: 'strip', text }))
}

const questionsThat = ({ questions }: Assessment, verdict: Verdict): readonly string[] =>
  questions.flatMap((q) => (q.verdict === verdict ? [q.id] : []))

/** Questions nobody can answer yet: the price may move with them. */
function openRow({ assessment }: OfferInput): readonly (readonly [Inline, Inline])[] {
  const open = questionsThat(assessment, 'unknown')
  return open.length === 0
    ? []
    : [['still open', `${open.join(', ')}: not all of it is known yet; price and day may move with it`]]
}

/** What an offer needs and nobody told. */
export interface NotTold {
  readonly what: string
  /** Place in the job document; null: it is the shop’s, and stands in its folder at `shop`. */
  readonly path: string | null
  readonly shop: string | null
}

/** What the offer says it was not told, each with where it is told. */
export function notTold({ job, assessment }: Pick<OfferInput, 'job' | 'assessment'>): readonly NotTold[] {
  const { money } = assessment.results
  const job_ = (what: string, path: string): NotTold => ({ what, path, shop: null })
  const shop = (what: string, at: string): NotTold => ({ what, path: null, shop: at })
  return [
    ...(job.needs.customer == null ? [job_('whom it is made to', 'needs.customer')] : []),
    ...(job.needs.neededBy === null ? [job_('the day by which it must be live', 'needs.needed-by')] : []),
    ...(money.price.marginFrac === null ? [job_('the margin: without one there is no price', 'needs.money.margin')] : []),
    ...(money.price.tax === null ? [shop('the tax: the price is without', 'money.tax')] : []),
    ...(money.validTold ? [] : [shop(`how long it is valid: ${money.validDays} days stand, the usual`, 'money.validity')]),
    ...(money.orderDepositFrac === null ? [shop('what is paid with the order', 'money.deposit')] : []),
    ...money.lacking.map((l) => {
      const path = l.what.startsWith('haul') ? 'needs.money.haul' : null
      return { what: `a price: ${l.what}, ${l.why}`, path, shop: path === null ? 'prices' : null }
    }),
  ]
}

const ASKED_WORDS = {
  box: 'built, painted, wired, tested in the shop and labelled',
  haul: 'haul to the place, one way',
  fees: 'paid once to who supplies, at cost and with nothing on it',
} as const

function askedBlocks(money: MoneyResult): readonly Block[] {
  const { price, currency, options } = money
  const floor = price.isFloor ? 'at least ' : ''
  const boxes = [...new Set(money.lines.flatMap((l) => (l.box === null ? [] : [l.box])))]
  const rows: Inline[][] = [
    ...askedParts(money).map((p): Inline[] => [
      p.of === 'box'
        ? plain(`${boxes.length === 1 ? 'box' : `${boxes.length} boxes:`} ${boxes.join(', ')}, ${ASKED_WORDS.box}`)
        : ASKED_WORDS[p.of],
      toCent(p.money, ''),
    ]),
    ...(price.priceMoney === null
      ? []
      : [[[['b', 'together, before tax']], [['b', `${floor}${toCent(price.priceMoney, '')}`]]] as Inline[]]),
    ...(price.tax === null ? [] : [[`${price.tax.name}, ${percentWords(price.tax.frac)}`, toCent(price.tax.money, '')]]),
    ...(price.tax === null || price.totalMoney === null
      ? []
      : [[[['b', 'together']], [['b', `${floor}${toCent(price.totalMoney, '')}`]]] as Inline[]]),
  ]
  return [
    { k: 'table', columns: [col('what', -1), right(currency, 40)], rows },
    ...money.beside.map(
      (b): Block => ({
        k: 'para',
        small: true,
        text: `Beside, in another currency and not added: ${toCent(b.money, b.currency)} at cost.`,
      }),
    ),
    ...rentLine(money),
    ...(price.tax === null ? [{ k: 'para' as const, small: true, text: ['Without tax: ', NOT_TOLD, '.'] }] : []),
    ...(options.length === 0
      ? []
      : [
          {
            k: 'table' as const,
            small: true,
            columns: [col('options, each beside the price and before tax', -1), right(currency, 40)],
            rows: options.map((o): Inline[] => [plain(o.what), o.priceMoney === null ? 'on request' : toCent(o.priceMoney, '')]),
          },
        ]),
  ]
}

function rentLine({ rent, currency }: MoneyResult): readonly Block[] {
  if (rent === null) return []
  const haul =
    rent.haulEachWayMoney === null
      ? 'the haul apart, not known yet'
      : `the haul apart, ${toCent(rent.haulEachWayMoney, currency)} each way`
  const text = `Or rented: ${rent.isFloor ? 'at least ' : ''}${toCent(rent.rateMoney, currency)} for ${formatNumber(rent.periodDays)} days before tax, at least ${rent.minimumPeriodsCount} periods, a deposit of ${toCent(rent.depositMoney, currency)}; ${haul}. What is paid once to who supplies stays with the owner of the place.`
  return [{ k: 'para', text }]
}

function included({ design, assessment }: OfferInput): readonly Inline[] {
  const { money } = assessment.results
  const seen = new Map(design.boxes.map((b) => [b.box, b]))
  const bought = money.lines.filter((l) => l.group === 'bought' && l.likelyMoney !== null).map((l) => l.what)
  return [
    ...[...seen.values()].map((b) => {
      const served = b.circuits.filter((c) => c.own !== 'spare').length
      return plain(
        `${b.box}: ${b.serviceA} A service and panel of ${b.panel.ways} ways, ${served} circuits, ${b.circuits.filter((c) => c.cords.length > 0).reduce((n, c) => n + c.cords.length, 0)} cords`,
      )
    }),
    ...[...new Set(bought)].map(plain),
    'the job book, with every number and what it rests on',
  ]
}

function excluded({ assessment, job }: OfferInput): readonly Inline[] {
  const { money } = assessment.results
  return [
    'permits, and what the utility does beyond what is named',
    'ground works: level pad, trench, electrode in rock',
    'energy, fuel and the hire of any set',
    'snow and access on the day of the haul; waiting over an hour',
    ...(job.money.told?.haulMoney === null && money.lines.every((l) => l.group !== 'haul') ? ['the haul'] : []),
    ...money.lacking.slice(0, NAMED).map((l) => plain(`${l.what}: ${l.why}`)),
  ]
}

function pricesOf({ rows }: MoneyResult): string {
  const dates = rows
    .map((r) => r.date)
    .filter((d) => d !== '')
    .toSorted()
  const first = dates[0]
  if (first === undefined) return 'no price has a date'
  return first === dates.at(-1) ? first : `${first} to ${dates.at(-1)}`
}

function assumedBlock({ assumed }: Assessment): readonly Block[] {
  if (assumed.length === 0) return []
  const rest = assumed.length - NAMED
  const items = assumed.slice(0, NAMED).map((a) => plain(a.said))
  return [
    {
      k: 'lists',
      lists: [
        { title: 'Assumed, for nobody said', items: [...items, ...(rest > 0 ? [`and ${rest} more, all in the job book`] : [])] },
      ],
    },
  ]
}

/** Days of a period by the calendar; broken ones go by the running sum. */
function rentSheet(of: OfferInput, rent: Rent): Sheet {
  const { job, day, assessment } = of
  const { currency, price, validDays } = assessment.results.money
  const tax = price.tax
  const taxOf = (money: number): number => Math.round(money * (tax?.frac ?? 0) * 100) / 100
  const begins = (n: number): string => (day === null ? '' : dayAfterDays(day, Math.round(n * rent.periodDays)))
  const dated = day !== null && !/season/.test(rent.outBecause)
  const amounts = (money: number): Inline[] => [
    toCent(money, ''),
    ...(tax === null ? [] : [toCent(taxOf(money), ''), toCent(money + taxOf(money), '')]),
  ]
  return {
    part: 'rent',
    head: 'Schedule of rent',
    sub: subOf(of),
    scale: 'not to scale',
    key: false,
    blocks: [
      ...heldBack(of, 'rate'),
      {
        k: 'facts',
        rows: [
          ['to', job.needs.customer == null ? [NOT_TOLD] : plain(job.needs.customer)],
          ['rate', [['b', `${toCent(rent.rateMoney, currency)} for ${formatNumber(rent.periodDays)} days, before tax`]]],
          ['least term', `${rent.minimumPeriodsCount} periods; then a period’s notice`],
          ['deposit', `${toCent(rent.depositMoney, currency)}: rent, cords and the way back; returned after the box is checked`],
          [
            'haul',
            rent.haulEachWayMoney === null
              ? 'each way apart, not known yet'
              : `${toCent(rent.haulEachWayMoney, currency)} each way, apart, before tax`,
          ],
          ['paid', 'each period in advance; a started period counts whole'],
          [
            'kept by the tenant',
            'lamps, cords, cleanliness, snow off the roof; damage is charged by the photographs of both hand-overs',
          ],
          ['kept by the shop', 'gear, seals, paint, the yearly test'],
          ['insured', 'by the tenant for use and theft, by the shop as its own property; the certificate comes before the box'],
          ['valid', validWords(assessment.results.money, day === null ? null : `until ${dayAfterDays(day, validDays)}`)],
        ],
      },
      {
        k: 'head',
        text: 'Periods',
        note: dated ? 'from the day of this sheet; moved with the day of hand-over' : 'by number; the days follow the hand-over',
      },
      periodTable(rent, {
        heads: [`rent, ${currency}`, ...(tax === null ? [] : [tax.name, 'together'])],
        each: amounts(rent.rateMoney),
        begins: (n) => (dated ? begins(n) : ''),
      }),
      {
        k: 'facts',
        rows: [
          [
            [['b', 'all periods']],
            [
              [
                'b',
                `${toCent(rent.stayMoney, currency)}${tax === null ? '' : `; ${toCent(rent.periodsAskedCount * (rent.rateMoney + taxOf(rent.rateMoney)), currency)} with ${tax.name}`}`,
              ],
            ],
          ],
        ],
      },
    ],
  }
}

/** Two periods a row where one a row would not stay on the sheet. */
const MOST_ROWS = 26

function periodTable(
  { periodsAskedCount }: Rent,
  of: { readonly heads: readonly string[]; readonly each: readonly Inline[]; readonly begins: (n: number) => string },
): Block {
  const side = periodsAskedCount > MOST_ROWS ? 2 : 1
  const rows = Math.ceil(periodsAskedCount / side)
  const cells = (n: number): Inline[] =>
    n < periodsAskedCount ? [String(n + 1), of.begins(n), ...of.each] : ['', '', ...of.each.map(() => '')]
  return {
    k: 'table',
    small: true,
    columns: Array.from({ length: side }, () => [
      right('period', 13),
      col('from', 21),
      ...of.heads.map((head) => right(head, 19)),
    ]).flat(),
    rows: Array.from({ length: rows }, (_, r) => Array.from({ length: side }, (__, k) => cells(r + k * rows)).flat()),
  }
}
