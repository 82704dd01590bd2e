import { type OfferBar, offersDrawing } from '@plugstead/drawings'
import type { Block, Inline, Sheet } from '../content.ts'
import { type BookInput, type BoxSupply, type OfferRow, widthOf } from '../results.ts'
import { boxName, col, marked, money, moneySpan, number, percent, plain, quantity, right, spanOf } from '../words.ts'

/** Offers side by side, what each month costs, the interim, and where the one bond between neutral and earth stands. */
export function supplySheets(input: BookInput): readonly Sheet[] {
  const { job, assessment } = input
  const all = assessment.results.supply.boxes
  return all.map((box) => ({
    part: 'supply',
    head: 'What can feed it',
    sub: boxName(box, all),
    scale: 'not to scale',
    key: true,
    blocks: [
      { k: 'drawing', scene: offersDrawing({ widthMm: widthOf(input), currency: job.money.currency, rows: offerBars(box) }) },
      ...offerTables(box, job.money.currency, job.offers),
      ...interimBlocks(box, job.money.currency),
      ...billBlocks(box.chosenRow),
      ...generatorBlocks(box),
      ...bondBlocks(box),
    ],
  }))
}

const offerBars = (box: BoxSupply): readonly OfferBar[] =>
  [...box.offers]
    .sort((a, b) => a.rank - b.rank)
    .map((o) => ({
      name: plain(`${number(o.rank)}  ${o.offer}, ${o.sizeSaid}`),
      verdict: o.verdict,
      taken: isTaken(box, o),
      money: o.overStayMoney,
      ready: readySaid(o),
      lacks: o.lacks.map(plain),
    }))

const isTaken = (box: BoxSupply, o: OfferRow): boolean =>
  o === box.chosenRow || (o.offer === box.chosenRow?.offer && o.rank === box.chosenRow.rank)

const readySaid = (o: OfferRow): string =>
  !o.available
    ? 'not available'
    : `ready ${o.readyDate ?? 'on a day not known'}${o.lateDays === null ? '' : o.lateDays > 0 ? `, ${number(o.lateDays)} days late` : `, ${number(-o.lateDays)} days in hand`}`

const PER_TABLE = 3

function offerTables(box: BoxSupply, currency: string, told: BookInput['job']['offers']): readonly Block[] {
  const offers = [...box.offers].sort((a, b) => a.rank - b.rank)
  const tables: Block[] = []
  for (let i = 0; i < offers.length; i += PER_TABLE) {
    const some = offers.slice(i, i + PER_TABLE)
    const line = (words: string, of: (o: OfferRow) => Inline): Inline[] => [words, ...some.map(of)]
    tables.push({
      k: 'table',
      columns: [col('offer', 30), ...some.map((o) => col(`${o.offer}${isTaken(box, o) ? ', taken' : ''}`, -1))],
      rows: [
        line('', (o) => o.what),
        line('verdict', (o) =>
          o.verdict === 'fails' ? [['mark', o.verdict], ' ', ['fails', o.verdict]] : marked(o.verdict, o.verdict),
        ),
        line('rank', (o) => (o.available ? number(o.rank) : `${number(o.rank)}, not available`)),
        line('kind, system', (o) => `${o.kind}, ${o.system}`),
        line('size', (o) => plain(o.sizeSaid)),
        line('needed', (o) => quantity(o.needA, 'A')),
        line('own transformer', (o) => quantity(o.ownTransformerKVA, 'kVA', 'none')),
        line('transformer', (o) =>
          o.transformer === null
            ? '–'
            : [
                `${quantity(o.transformer.kVA, 'kVA')}${o.transformer.own ? ', own' : ''}, `,
                spanOf(o.transformer.impedancePct, '%'),
                `, loaded to ${percent(o.transformer.loadFrac)}, ${o.transformer.verdict}`,
              ],
        ),
        line('distance', (o) => quantity(told.find((t) => t.id === o.offer)?.distanceM ?? null, 'm')),
        line('drop over the run', (o) =>
          o.dropFrac === null ? 'not known' : [spanOf({ low: o.dropFrac.low * 100, high: o.dropFrac.high * 100 }, '%')],
        ),
        line('meter', (o) => o.meterPlace),
        line('fee', (o) => money(o.feeMoney, currency)),
        line('lead time', (o) => quantity(o.leadDays, 'days', 'not told')),
        line(
          'ready',
          (o) =>
            `${o.readyDate ?? 'not known'}${o.lateDays === null ? '' : o.lateDays > 0 ? `, ${number(o.lateDays)} days late` : `, ${number(-o.lateDays)} days in hand`}`,
        ),
        line('once', (o) => money(o.oneOffMoney, currency)),
        line('a month', (o) => [moneySpan(o.monthlyMoney, currency)]),
        line('over the stay', (o) => [moneySpan(o.overStayMoney, currency)]),
        line('still lacks', (o) => (o.lacks.length === 0 ? 'nothing named' : plain(o.lacks.join('; ')))),
        line('why this rank', (o) => plain(o.why)),
      ],
    })
  }
  return tables
}

function interimBlocks(box: BoxSupply, currency: string): readonly Block[] {
  const i = box.interim
  if (i === null) return []
  return [
    {
      k: 'head',
      text: 'For the gap',
      note: `${i.fromDate ?? 'date not told'} to ${i.toDate ?? 'date not told'}, ${number(i.days)} days`,
    },
    { k: 'para', text: [`${i.offer ?? 'Nothing offered covers it'}: ${plain(i.why)} Cost `, moneySpan(i.money, currency), '.'] },
  ]
}

function billBlocks(offer: OfferRow | null): readonly Block[] {
  const bill = offer?.bill
  if (offer === null || bill === null || bill === undefined) return []
  return [
    {
      k: 'head',
      text: `A month on ${offer.offer}`,
      note: [`${quantity(bill.energyKWh, 'kWh')}, peak ${quantity(bill.peakKW, 'kW')}, `, spanOf(bill.peakKVA, 'kVA')],
    },
    {
      k: 'table',
      columns: [col('line', 28), col('worked out', -1), right(bill.currency, 42)],
      rows: [
        ...bill.lines.map((l): Inline[] => [l.what, plain(l.said), [moneySpan(l.money, bill.currency)]]),
        [
          [['b', bill.complete ? 'together' : 'together, at least']],
          bill.complete ? '' : 'a line above is not known: this is a floor, not a bill',
          [moneySpan(bill.totalMoney, bill.currency)],
        ],
      ],
    },
  ]
}

function generatorBlocks(box: BoxSupply): readonly Block[] {
  const sets = box.offers.flatMap((o) => (o.generator === null ? [] : [o.generator]))
  if (sets.length === 0) return []
  const currency = box.offers.find((o) => o.bill !== null)?.bill?.currency ?? ''
  return [
    { k: 'head', text: 'Generator sets' },
    {
      k: 'table',
      columns: [col('', 46), ...sets.map((g) => col(g.offer, -1))],
      rows: [
        ['verdict', ...sets.map((g) => marked(g.verdict, g.verdict))],
        ['on the plate', ...sets.map((g) => `${g.sets} × ${quantity(g.ratedKW, 'kW')}, ${quantity(g.ratedKVA, 'kVA')}`)],
        [
          'left at this height and heat',
          ...sets.map((g): Inline => [spanOf(g.availableKW, 'kW'), ' ', spanOf(g.availableKVA, 'kVA')]),
        ],
        ['everything on', ...sets.map((g) => `${quantity(g.allOnKW, 'kW')}, ${quantity(g.allOnKVA, 'kVA')}`)],
        ['as staged', ...sets.map((g) => `${quantity(g.stagedKW, 'kW')}, ${quantity(g.stagedKVA, 'kVA')}`)],
        ['one phase, share of its rating', ...sets.map((g) => percent(g.onePhaseFrac))],
        [
          'mean load',
          ...sets.map(
            (g) => `${quantity(g.meanKW, 'kW')}, ${percent(g.meanFrac)} of the plate, least ${percent(g.meanLeastFrac)}`,
          ),
        ],
        [
          'largest start',
          ...sets.map(
            (g): Inline =>
              g.largestStart === null
                ? 'none'
                : [
                    `${g.largestStart.plug}, `,
                    spanOf(g.largestStart.startKVA, 'kVA'),
                    ', dip ',
                    spanOf({ low: g.largestStart.dipFrac.low * 100, high: g.largestStart.dipFrac.high * 100 }, '%'),
                    ` of ${percent(g.largestStart.limitFrac)}, ${g.largestStart.verdict}`,
                  ],
          ),
        ],
        [
          'fuel a month of full days',
          ...sets.map((g): Inline => [spanOf(g.fuelLPerMonth, 'L'), ', ', moneySpan(g.fuelMoneyPerMonth, currency)]),
        ],
        [
          'quiet hours',
          ...sets.map((g) => (g.quietKept ? 'kept' : `${quantity(g.quietLoadKW, 'kW')} would have to run in them`)),
        ],
      ],
    },
  ]
}

function bondBlocks(box: BoxSupply): readonly Block[] {
  return [
    { k: 'head', text: 'Neutral and earth', note: 'one bond in every position of the switch, neither more nor less' },
    {
      k: 'table',
      columns: [
        col('fed by', 24),
        col('earthing', 24),
        col('bonds joined to our neutral', -1),
        right('wanted'),
        col('', 22),
        col('what is so', -1.3),
      ],
      rows: box.bonds.map((b) => [
        b.position,
        b.earthing,
        b.bonds.length === 0 ? 'none' : b.bonds.map((p) => `${p.where}${p.ours ? ', ours' : ''}`).join('; '),
        number(b.wanted),
        marked(b.verdict, b.verdict),
        plain(b.said),
      ]),
    },
    {
      k: 'strip',
      text: 'A second bond puts load current on the metal of the box; none leaves a fault standing. Prove it with the supply off, locked and proved dead.',
    },
  ]
}
