import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, money, number, plain, quantity, right } from '../../words.ts'

type Hours = BoxShop['hours']['total']

const hourWords = (h: Hours): string => `${h.low.toFixed(1)} … ${h.high.toFixed(1)}`

export function stepBlocks({ steps }: BoxShop): readonly Block[] {
  return steps.flatMap((s): readonly Block[] => [
    ...(s.caution === null ? [] : [{ k: 'strip' as const, text: plain(s.caution) }]),
    {
      k: 'para',
      text: [
        ['b', `${s.id}  ${s.who}`],
        s.hours === null ? '' : `, ${hourWords(s.hours)} h`,
        ['br', ''],
        plain(s.words),
        ...(s.hold === null
          ? []
          : ([
              ['br', ''],
              ['boxed', 'hold point'],
              ` ${plain(s.hold.what)}. Nothing goes on until ${s.hold.signs} has signed: ________________________  day: ____________`,
            ] as const)),
      ],
    },
  ])
}

export function hourBlocks({ hours, bill }: BoxShop): readonly Block[] {
  const row = (name: string, h: Hours, factor: number | null): Inline[] => [
    [['b', name]],
    h.low.toFixed(1),
    h.middle.toFixed(1),
    h.high.toFixed(1),
    factor === null ? '' : number(factor),
  ]
  return [
    {
      k: 'table',
      columns: [col('trade', -1), right('low, h'), right('middle, h'), right('high, h'), right('the shop’s own factor')],
      rows: [
        ...(Object.keys(hours.byTrade) as (keyof typeof hours.byTrade)[]).map((trade) =>
          row(trade, hours.byTrade[trade], hours.factors[trade]),
        ),
        row('together', hours.total, null),
      ],
    },
    {
      k: 'facts',
      rows: [
        [
          'at the shop’s rates',
          hours.money === null
            ? 'not known: a rate is missing'
            : `${money(hours.money.low, bill.currency)} … ${money(hours.money.high, bill.currency)}, middle ${money(hours.money.middle, bill.currency)}`,
        ],
        ['painted, welded', `${quantity(hours.paintM2, 'm²')}, ${quantity(hours.weldM, 'm')}`],
      ],
    },
    { k: 'head', text: 'From what' },
    {
      k: 'table',
      small: true,
      columns: [
        col('step', 11),
        col('trade', 20),
        col('what', -1.2),
        right('quantity', 18),
        col('unit', 20),
        right('hours each', 18),
        right('hours', 26),
        col('rests on', -1),
      ],
      rows: hours.lines.map((l): Inline[] => [
        l.step,
        l.trade,
        plain(l.what),
        number(l.quantity),
        l.unit === 'm2' ? 'm²' : l.unit,
        number(l.hoursEach),
        hourWords(l.hours),
        plain(l.rests.endsWith(`, ${l.what}`) ? l.rests.slice(0, -l.what.length - 2) : l.rests),
      ]),
    },
  ]
}
