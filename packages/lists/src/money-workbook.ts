import { type CostLine, type MoneyResult, presentFrac, type Rent } from '@plugstead/engine/money'
import { type Cell, columnName, type Look, type WorkbookSheet, workbook } from './workbook.ts'

const bold = (words: string): Cell => ({ words, look: 'bold' })
const live = (formula: string, value: number, look: Look = 'money'): Cell => ({ formula, value, look })
const given = (number: number, look: Look = 'money'): Cell => ({ number, look })
const WARRANTED: ReadonlySet<string> = new Set(['box', 'material', 'labour', 'overhead', 'bought'])

/** Cost, price, rent and the customer's ways as a workbook whose formulas are live: change a figure and the rest follows. */
export function moneyWorkbook(result: MoneyResult, title: string): Uint8Array {
  const cost = costSheet(result, title)
  return workbook([
    cost.sheet,
    ...(result.rent === null ? [] : [rentSheet(result.rent, result.currency, cost.at)]),
    ...(result.comparison === null || result.comparison.ways.length === 0 ? [] : [waysSheet(result)]),
  ])
}

interface CostAt {
  /** Cells of the sheet `cost`, as a formula elsewhere names them. */
  readonly worth: string
  readonly margin: string
}

const HEAD_ROWS = 4

function costSheet(result: MoneyResult, title: string): { readonly sheet: WorkbookSheet; readonly at: CostAt } {
  const { currency, price } = result
  const counted = result.lines.filter((l) => l.money !== null)
  const beside = result.lines.filter((l) => l.money === null)
  const first = HEAD_ROWS + 1
  const last = HEAD_ROWS + Math.max(1, counted.length)
  const rows = counted.map((l, i): readonly Cell[] => {
    const r = first + i
    return [
      ...[l.group, l.box ?? 'job', l.what],
      given(l.quantity, 'number'),
      l.per,
      l.group === 'warranty' ? live(warrantyBase(counted, first), l.unitMoney!, 'number') : given(l.unitMoney!, 'number'),
      live(`D${r}*F${r}`, l.likelyMoney!, 'number'),
      live(`ROUND(SUM(G$${first}:G${r}),2)${i === 0 ? '' : `-ROUND(SUM(G$${first}:G${r - 1}),2)`}`, l.money!),
      l.date,
      l.rests.place,
    ]
  })
  const sum = (group: string): string => `SUMIF(A${first}:A${last},"${group}",H${first}:H${last})`
  const of = (group: string): number => result.groups.find((g) => g.group === group)?.money ?? 0
  const at = last + 2
  const margin = price.marginFrac
  const total: (readonly [string, Cell])[] = [
    ['cost', live(`SUM(H${first}:H${last})`, price.costMoney, 'bold money')],
    ['of it passed through, no margin on it', live(sum('fees'), price.passedMoney)],
    [
      'of it the box itself, without haul',
      live(`H${at}-H${at + 1}-${sum('haul')}`, price.costMoney - price.passedMoney - of('haul')),
    ],
    ...(margin === null
      ? []
      : ([
          ['margin, share of the price', given(margin, 'percent')],
          ['the same as a mark-up on the cost', live(`H${at + 3}/(1-H${at + 3})`, price.markUpFrac!, 'percent')],
          ['price before tax', live(`ROUND((H${at}-H${at + 1})/(1-H${at + 3}),2)+H${at + 1}`, price.priceMoney!, 'bold money')],
          ['margin in money', live(`H${at + 5}-H${at}`, price.marginMoney!)],
          ...(price.tax === null
            ? []
            : ([
                [price.tax.name, given(price.tax.frac, 'percent')],
                ['tax', live(`ROUND(H${at + 5}*H${at + 7},2)`, price.tax.money)],
                ['price with tax', live(`H${at + 5}+H${at + 8}`, price.totalMoney!, 'bold money')],
              ] as const)),
        ] as const)),
  ]
  return {
    sheet: {
      name: 'cost',
      widths: [10, 10, 44, 10, 8, 12, 14, 14, 11, 40],
      rows: [
        [bold(title)],
        [price.isFloor ? 'A floor: something has no price, or stands in another currency.' : 'Every line is priced.'],
        [],
        ['group', 'of', 'what', 'quantity', 'per', 'each', 'exact', currency, 'price of', 'rests on'].map(bold),
        ...(rows.length === 0 ? [[]] : rows),
        [],
        ...total.map(([words, cell]): readonly Cell[] => [null, null, words, null, null, null, null, cell]),
        [],
        ...(beside.length === 0
          ? []
          : [
              [bold('Beside, in no sum')],
              ...beside.map((l): readonly Cell[] => [
                l.group,
                l.box ?? 'job',
                l.what,
                given(l.quantity, 'number'),
                l.per,
                l.unitMoney === null ? 'not known' : given(l.unitMoney),
                null,
                l.currency,
              ]),
            ]),
        ...result.lacking.map((l): readonly Cell[] => ['lacking', null, `${l.what}: ${l.why}`]),
      ],
    },
    at: { worth: `cost!$H$${at + 2}`, margin: `cost!$H$${at + 3}` },
  }
}

/** The warranty is a share of the lines it covers, so its base follows them. */
function warrantyBase(counted: readonly CostLine[], first: number): string {
  const own = counted.flatMap((l, i) => (WARRANTED.has(l.group) ? [first + i] : []))
  return own.length === 0 ? '0' : `SUM(G${own[0]}:G${own.at(-1)})`
}

function rentSheet(r: Rent, currency: string, cost: CostAt): WorkbookSheet {
  const ratio = (part: number): number => (r.costMoney === 0 ? 0 : part / r.costMoney)
  const crf = (r.recoveryMoney - r.residualMoney * r.interestFrac) / Math.max(r.costMoney - r.residualMoney, Number.MIN_VALUE)
  const each = r.hiresPerYearCount === 0 ? 0 : r.turnRoundMoney / r.hiresPerYearCount
  const rows: (readonly [string, Cell])[] = [
    ['P, cost without haul and fees', live(cost.worth, r.costMoney)],
    ['residual, share of P', given(ratio(r.residualMoney), 'percent')],
    ['interest a year', given(r.interestFrac, 'percent')],
    ['life, years', given(r.lifeYears, 'number')],
    ['capital recovery factor', live('IF(B5=0,1/B6,B5/(1-(1+B5)^(-B6)))', crf, 'number')],
    ['capital recovery a year', live('(B3-B3*B4)*B7+B3*B4*B5', r.recoveryMoney)],
    ['insurance a year, share of P', given(ratio(r.insuranceMoney), 'percent')],
    ['upkeep a year, share of P', given(ratio(r.upkeepMoney), 'percent')],
    ['hires a year', given(r.hiresPerYearCount, 'number')],
    ['turn-round, each', given(each)],
    ['cost of a year', live('B8+(B9+B10)*B3+B11*B12', r.yearMoney)],
    ['periods out a year', given(r.periodsOutCount, 'number')],
    ['margin, share of the rate', live(cost.margin, r.marginFrac, 'percent')],
    ['rate of a period', live('ROUND(B13/B14/(1-B15),2)', r.rateMoney, 'bold money')],
    ['periods of the stay', given(r.periodsAskedCount, 'number')],
    ['rent of the stay', live('ROUND(B16*B17,2)', r.stayMoney, 'bold money')],
  ]
  return { name: 'rent', widths: [40, 16], rows: [[bold(`Rent, ${currency}`)], [], ...rows] }
}

/** The flows of every way by the month, their plain sum, and what they are worth today. */
function waysSheet({ comparison, currency }: MoneyResult): WorkbookSheet {
  const { ways, interestFrac, winters } = comparison!
  const months = [...new Set(ways.flatMap((w) => w.flows.map((f) => f.atMonths)))].toSorted((a, b) => a - b)
  const first = 5
  const last = first + months.length - 1
  const column = (i: number): string => columnName(i + 2)
  const row = (words: string, cell: (i: number) => Cell): readonly Cell[] => [bold(words), null, ...ways.map((_, i) => cell(i))]
  return {
    name: 'ways',
    widths: [22, 12, ...ways.map(() => 24), ...(winters === null ? [] : ways.map(() => 24))],
    rows: [
      [bold(`What the customer could do, ${currency}`)],
      [bold('interest a year'), given(interestFrac, 'percent')],
      [],
      [
        bold('month'),
        bold('worth today'),
        ...ways.map((w) => bold(w.what)),
        ...(winters === null ? [] : ways.map((w) => bold(`${w.what}: runs with the winter`))),
      ],
      ...months.map((m, k): readonly Cell[] => [
        m,
        live(`(1+$B$2)^(-A${first + k}/12)`, presentFrac(interestFrac, m / 12), 'number'),
        ...ways.map((w) => given(w.flows.filter((f) => f.atMonths === m).reduce((sum, f) => sum + f.money, 0))),
        ...(winters === null
          ? []
          : ways.map((w) => given(w.flows.filter((f) => f.atMonths === m).reduce((sum, f) => sum + (f.winterMoney ?? 0), 0)))),
      ]),
      [],
      row('paid in all', (i) => live(`SUM(${column(i)}${first}:${column(i)}${last})`, ways[i]!.paidMoney, 'bold money')),
      row('worth today', (i) =>
        live(`SUMPRODUCT($B$${first}:$B$${last},${column(i)}${first}:${column(i)}${last})`, ways[i]!.presentMoney, 'bold money'),
      ),
      ...(winters === null
        ? []
        : [
            [],
            [bold('hours in a usual winter'), given(winters.middleH, 'number')],
            ...(
              [
                ['mild', winters.mildH, (i: number) => ways[i]!.winters!.mildMoney],
                ['hard', winters.hardH, (i: number) => ways[i]!.winters!.hardMoney],
              ] as const
            ).map(([name, hours, worth], k): readonly Cell[] => [
              bold(`worth today, ${name} winters: hours`),
              given(hours, 'number'),
              ...ways.map((_, i) =>
                live(
                  `${column(i)}${last + 3}+($B$${last + 6 + k}/$B$${last + 5}-1)*SUMPRODUCT($B$${first}:$B$${last},${column(i + ways.length)}${first}:${column(i + ways.length)}${last})`,
                  worth(i),
                  'bold money',
                ),
              ),
            ]),
          ]),
    ],
  }
}
