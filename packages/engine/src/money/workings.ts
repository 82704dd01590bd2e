import { put, type Source, type Step, source, step, type Working } from '../kernel/index.ts'
import { capitalRecoveryFrac } from './interest.ts'
import type { Comparison, MoneyResult, Price, Rent } from './result.ts'
import type { Spread } from './simulate.ts'

const SUM: Source = source('sum of the lines', 'computed')
const ECONOMY: Source = source('engineering economy', 'memory')
const SHOP: Source = source('the shop’s page', 'told')

/** Every figure of money, line by line. */
export function moneyWorkings(result: MoneyResult): readonly Working[] {
  const { currency, price, spread, rent, comparison } = result
  if (result.lines.every((l) => l.money === null)) return []
  return [
    costWorking(result),
    ...(price.priceMoney === null ? [] : [priceWorking(price, currency)]),
    ...(spread === null ? [] : [spreadWorking(spread, price, currency)]),
    ...(rent === null ? [] : [rentWorking(rent, currency)]),
    ...(comparison === null || comparison.ways.length === 0 ? [] : [compareWorking(comparison, currency)]),
    ...(comparison === null ? [] : habitWorkings(comparison, currency)),
  ]
}

function costWorking({ groups, lines, price, currency, lacking, beside }: MoneyResult): Working {
  return {
    id: 'job/cost',
    title: 'What it costs the shop',
    steps: [
      ...groups.map((g) => {
        const own = lines.filter((l) => l.group === g.group && l.money !== null)
        const rests = own.length === 1 ? own[0]!.rests : SUM
        return step(
          g.group,
          'Σ lines',
          own
            .slice(0, MOST_PUT)
            .map((l) =>
              put(l.box === null ? l.what : `${l.what}${l.what.includes(l.box) ? '' : `, ${l.box}`}`, l.money!, currency),
            ),
          g.money,
          currency,
          rests,
        )
      }),
      step(
        'C',
        'Σ groups',
        groups.map((g) => put(g.group, g.money, currency)),
        price.costMoney,
        currency,
        SUM,
      ),
    ],
    notes: [
      'Each line is what the running sum, rounded to the cent, gained by it: the lines sum to the cost to the cent.',
      ...lacking.map((l) => `In no sum: ${l.what}: ${l.why}.`),
      ...beside.map((b) => `Beside, never added: ${b.money.toFixed(2)} ${b.currency}.`),
    ],
  }
}
const MOST_PUT = 12

function priceWorking(p: Price, currency: string): Working {
  const margin = p.marginFrac ?? 0
  const from = p.marginFrom === 'the job' ? source('needs.money.margin', 'told') : SHOP
  return {
    id: 'job/price',
    title: 'What it sells for',
    steps: [
      step('C', 'cost that bears the margin', [], p.bearingMoney, currency, SUM),
      step('m', 'margin, share of the price', [], margin * 100, '%', from),
      step(
        'P',
        'C/(1 − m) + passed through',
        [put('C', p.bearingMoney, currency), put('m', margin), put('passed through', p.passedMoney, currency)],
        p.priceMoney ?? '',
        currency,
        source('margin on the price', 'computed'),
      ),
      step(
        'k',
        'm/(1 − m), mark-up on the cost',
        [put('m', margin)],
        (p.markUpFrac ?? 0) * 100,
        '%',
        source('the same money, seen from the cost', 'computed'),
      ),
      step('margin', 'P − C − passed through', [], p.marginMoney ?? '', currency, SUM),
      ...(p.tax === null
        ? []
        : [
            step(
              'tax',
              'P · t',
              [put('t', p.tax.frac * 100, '%')],
              p.tax.money,
              currency,
              source(`the shop’s page, ${p.tax.name}`, 'told'),
            ),
          ]),
      step('total', 'P + tax', [], p.totalMoney ?? '', currency, SUM),
    ],
    crossCheck: [
      step(
        'C',
        'P₀ · (1 − m), back from the price',
        [put('P₀', (p.priceMoney ?? 0) - p.passedMoney, currency)],
        ((p.priceMoney ?? 0) - p.passedMoney) * (1 - margin),
        currency,
        SUM,
      ),
      step(
        'C',
        'P₀/(1 + k), back by the mark-up',
        [put('k', p.markUpFrac ?? 0)],
        ((p.priceMoney ?? 0) - p.passedMoney) / (1 + (p.markUpFrac ?? 0)),
        currency,
        SUM,
      ),
    ],
    notes: p.isFloor ? ['Something has no price or stands in another currency: this is a floor.'] : [],
  }
}

function spreadWorking(s: Spread, price: Price, currency: string): Working {
  const drawn = source(`${s.drawsCount} draws, seed ${s.seed}`, 'computed')
  const closed = source('mean and variance of sums of triangles', 'memory')
  return {
    id: 'job/spread',
    title: 'How far the cost may lie from what was counted',
    steps: [
      step('mean', 'Σ draws/n', [], s.meanMoney, currency, drawn),
      step('σ', 'root of the mean square about the mean', [], s.deviationMoney, currency, drawn),
      step('low', 'one draw in ten is below', [], s.lowMoney, currency, drawn),
      step('middle', 'half the draws are below', [], s.middleMoney, currency, drawn),
      step('high', 'one draw in ten is above', [], s.highMoney, currency, drawn),
      step('over cost', 'share of draws above', [put('C', price.costMoney, currency)], (s.aboveFrac[0] ?? 0) * 100, '%', drawn),
    ],
    crossCheck: [
      step('mean', 'Σ p·(low + likely + high)/3', [], s.closedMeanMoney, currency, closed),
      step('σ', '√Σ(p·(v + m²) − (p·m)²)', [], s.closedDeviationMoney, currency, closed),
    ],
    notes: ['All hours of one trade move together, and so does each sheet of the bill; risks come or do not.'],
  }
}

function rentWorking(r: Rent, currency: string): Working {
  const crf = capitalRecoveryFrac({ interestFrac: r.interestFrac, periodsCount: r.lifeYears })
  return {
    id: 'job/rent',
    title: 'What a period of rent must bring',
    steps: [
      step('P', 'cost without haul and fees', [], r.costMoney, currency, SUM),
      step('S', 'residual', [put('life', r.lifeYears, 'years')], r.residualMoney, currency, SHOP),
      step('CRF', 'i/(1 − (1 + i)^−n)', [put('i', r.interestFrac * 100, '%'), put('n', r.lifeYears)], crf, '', ECONOMY),
      step(
        'CR',
        '(P − S) · CRF + S · i',
        [put('P', r.costMoney, currency), put('S', r.residualMoney, currency)],
        r.recoveryMoney,
        currency,
        ECONOMY,
      ),
      step('insurance', 'share of P a year', [], r.insuranceMoney, currency, SHOP),
      step('upkeep', 'share of P a year', [], r.upkeepMoney, currency, SHOP),
      step('turn-round', 'hires a year × each', [put('hires', r.hiresPerYearCount)], r.turnRoundMoney, currency, SHOP),
      step('year', 'CR + insurance + upkeep + turn-round', [], r.yearMoney, currency, SUM),
      step(
        'out',
        'periods a year that it is out',
        [put('of', r.periodsPerYearCount)],
        r.periodsOutCount,
        '',
        source(r.outBecause, 'told'),
      ),
      step(
        'rate',
        'year/out/(1 − m)',
        [put('year', r.yearMoney, currency), put('out', r.periodsOutCount), put('m', r.marginFrac)],
        r.rateMoney,
        currency,
        source('margin on the price', 'computed'),
      ),
      step(
        'deposit',
        'periods · rate + cords + haul back',
        [],
        r.depositMoney,
        currency,
        source('common practice of hire', 'common practice'),
      ),
      step('over the stay', 'periods asked · rate', [put('periods', r.periodsAskedCount)], r.stayMoney, currency, SUM),
    ],
    crossCheck: [
      step(
        'thumb',
        '5 % of P for 28 days',
        [put('P', r.costMoney, currency)],
        r.thumbMoney,
        currency,
        source('rule of thumb of hire', 'read'),
      ),
      step('money use', 'rent of a year/P', [], r.moneyUseFrac * 100, '%', SUM),
      step('time use', 'periods out/periods', [], r.timeUseFrac * 100, '%', SUM),
      step(
        'return',
        'interest at which the life is worth nothing',
        [],
        r.returnFrac === null ? 'none' : r.returnFrac * 100,
        '%',
        ECONOMY,
      ),
    ],
    notes: r.isFloor ? ['Something has no price or stands in another currency: this is a floor.'] : [],
  }
}

const WINTERS = source('needs.season.winters', 'told')

function compareWorking(c: Comparison, currency: string): Working {
  const rests = source(c.interestTold ? 'needs.money.interest' : 'no interest was told: 0 %', c.interestTold ? 'told' : 'assumed')
  return {
    id: 'job/compare',
    title: 'What the customer could do instead',
    steps: c.ways.flatMap((w, i): readonly Step[] => [
      step(`paid ${i + 1}`, `Σ flows: ${w.what}`, firstFlows(w.flows, currency), w.paidMoney, currency, SUM),
      step(`PV ${i + 1}`, 'Σ flow/(1 + i)^(month/12)', [put('i', c.interestFrac * 100, '%')], w.presentMoney, currency, rests),
      ...(c.winters === null || w.winters === null
        ? []
        : (
            [
              ['mild', c.winters.mildH, w.winters.mildMoney],
              ['hard', c.winters.hardH, w.winters.hardMoney],
            ] as const
          ).map(([name, hours, money]) =>
            step(
              `PV ${i + 1} ${name}`,
              'Σ (flow + part that runs with the winter · (h/h usual − 1))/(1 + i)^(month/12)',
              [put('h', hours, 'h'), put('h usual', c.winters!.middleH, 'h')],
              money,
              currency,
              WINTERS,
            ),
          )),
    ]),
    notes: [
      'What a box fetches when it is sold on is not counted; nor is what idle days cost. The running cost of a phase is spread evenly over its months.',
      ...c.lacking.map((l) => `Not compared: ${l.what}: ${l.why}.`),
    ],
  }
}

/** Of each kind of flow, how many and how much together. */
function firstFlows(flows: Comparison['ways'][number]['flows'], currency: string) {
  return [...Map.groupBy(flows, (f) => f.what)].map(([what, own]) =>
    put(
      own.length === 1 ? what : `${what}, ${own.length} times`,
      own.reduce((a, f) => a + f.money, 0),
      currency,
    ),
  )
}

function habitWorkings({ habits }: Comparison, currency: string): readonly Working[] {
  const tariff = source('facts.supply.tariff', 'told')
  return habits.map((h) => ({
    id: h.working,
    title: `${h.id === 'timers' ? 'Timers against all night' : 'Staged starts against all at once'}, ${h.box}`,
    steps: [
      step('now', 'energy and peak of a month of full days', [put('peak', h.peakKW, 'kW')], h.energyKWh, 'kWh', tariff),
      step('else', h.said, [put('peak', h.otherPeakKW, 'kW')], h.otherEnergyKWh, 'kWh', tariff),
      step('Δ', 'bill of the one − bill of the other, a full month', [], h.monthMoney, currency, tariff),
      step('a year', 'Δ × months of full days', [], h.yearMoney, currency, tariff),
    ],
  }))
}
