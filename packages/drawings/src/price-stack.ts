import { formatNumber, THIN } from '@plugstead/engine/kernel'
import { GROUP_HATCHES } from './hatches.ts'
import { wordsMm } from './model/lettering.ts'
import { box, circle, type Item, LETTERING_MM, line, type Point, partOf, type Scene, text } from './scene.ts'

export interface PriceStack {
  readonly widthMm: number
  readonly currency: string
  /** Groups of the cost in the order they are added, each with what it adds. */
  readonly groups: readonly { readonly name: string; readonly money: number }[]
  readonly costMoney: number
  /** Added to the cost; null: no margin was told, and the stack ends at the cost. */
  readonly margin: { readonly words: string; readonly money: number; readonly priceMoney: number } | null
  readonly tax: { readonly words: string; readonly money: number; readonly totalMoney: number } | null
  /** Of the cost: one draw in ten below the low, one in ten above the high. */
  readonly range: { readonly lowMoney: number; readonly middleMoney: number; readonly highMoney: number } | null
  /** Something is in no sum: the stack will not be lower. */
  readonly isFloor: boolean
  /** What cost, price and range were worked out by. */
  readonly workings: { readonly cost?: string; readonly price?: string; readonly range?: string }
}

const ROW_MM = 5.2
const BAR_MM = 3.4
const TOP_MM = 5
/** On a narrow sheet a name has a line of its own, above its bar. */
const NARROW_MM = 104
const NAME_MM = 3.6
/** Room for the amount behind the longest bar. */
const AMOUNT_MM = 23
const AT_LEAST_MM = 11

interface Row {
  readonly name: string
  readonly from: number
  readonly to: number
  readonly kind: 'part' | 'sum' | 'price'
  readonly hatch: number
  readonly of: string | undefined
}

/**
 * Where the price comes from, from the first group down to what is paid: each part begins where the one above it ends. Sums are hollow from the
 * left, the price heavy. Below, the cost as it was drawn: eight draws in ten lie between the ticks; the cut line is the price that has to bear it.
 */
export function priceStack(stack: PriceStack): Scene {
  const { widthMm, groups, margin, tax, range, workings } = stack
  const rows = rowsOf(stack)
  const names = [...rows.map((r) => r.name), ...(range === null ? [] : [RANGE_WORDS])]
  const narrow = widthMm < NARROW_MM
  const left = narrow ? 0.4 : Math.min(Math.max(...names.map((n) => wordsMm(n, LETTERING_MM))) + 2.5, widthMm * 0.34)
  const right = widthMm - AMOUNT_MM - (stack.isFloor ? AT_LEAST_MM : 0)
  const top = Math.max(...rows.map((r) => r.to), range?.highMoney ?? 0, 1e-9)
  const x = (money: number): number => left + (money / top) * (right - left)
  const y = (row: number): number => TOP_MM + (narrow ? NAME_MM : 0) + row * (narrow ? ROW_MM + NAME_MM : ROW_MM)
  const heaviest = groups.toSorted((a, b) => b.money - a.money).map((g) => g.name)
  const items: Item[] = rows.flatMap((row, i) =>
    rowItems(row, {
      x,
      y: y(i),
      left,
      narrow,
      heaviest,
      currency: stack.currency,
      isFloor: stack.isFloor,
      next: i + 1 < rows.length ? y(i + 1) : null,
    }),
  )
  let bottom = y(rows.length - 1) + BAR_MM / 2
  if (range !== null) {
    const at = y(rows.length) + (narrow ? 7 : 4.6)
    items.push(...rangeItems(range, { x, y: at, left, narrow, right: widthMm, of: workings.range }))
    if (margin !== null) items.push(...priceLine(margin.priceMoney, { x, from: at - 4.4, to: at + 2, right: widthMm }))
    bottom = at + 7.6
  }
  const floor = stack.isFloor ? 'at least ' : ''
  const said = [
    `From cost to price: ${groups.map((g) => `${g.name} ${whole(g.money)}`).join(', ')}; cost ${floor}${whole(stack.costMoney)} ${stack.currency}`,
    ...(margin === null
      ? ['no margin was told']
      : [`${margin.words} ${whole(margin.money)}, price before tax ${floor}${whole(margin.priceMoney)}`]),
    ...(tax === null ? [] : [`${tax.words} ${whole(tax.money)}, together ${floor}${whole(tax.totalMoney)}`]),
    ...(range === null
      ? []
      : [
          `eight of ten draws of the cost lie between ${whole(range.lowMoney)} and ${whole(range.highMoney)}, half below ${whole(range.middleMoney)}`,
        ]),
  ]
  return { sizeMm: [widthMm, bottom + 2], said: `${said.join('; ')}.`, items }
}

const RANGE_WORDS = 'cost, 8 of 10 draws'
const whole = (money: number): string => formatNumber(Math.round(money))

function rowsOf({ groups, costMoney, margin, tax, workings }: PriceStack): readonly Row[] {
  const rows: Row[] = []
  let from = 0
  for (const [i, g] of groups.entries()) {
    rows.push({ name: g.name, from, to: from + g.money, kind: 'part', hatch: i, of: workings.cost })
    from += g.money
  }
  rows.push({ name: 'cost', from: 0, to: costMoney, kind: 'sum', hatch: -1, of: workings.cost })
  if (margin === null) return rows
  rows.push(
    { name: margin.words, from: costMoney, to: margin.priceMoney, kind: 'part', hatch: -1, of: workings.price },
    { name: 'price before tax', from: 0, to: margin.priceMoney, kind: 'price', hatch: -1, of: workings.price },
  )
  if (tax === null) return rows
  rows.push(
    { name: tax.words, from: margin.priceMoney, to: tax.totalMoney, kind: 'part', hatch: -1, of: workings.price },
    { name: 'price with tax', from: 0, to: tax.totalMoney, kind: 'sum', hatch: -1, of: workings.price },
  )
  return rows
}

function rowItems(
  row: Row,
  at: {
    readonly x: (money: number) => number
    readonly y: number
    readonly left: number
    readonly narrow: boolean
    readonly heaviest: readonly string[]
    readonly currency: string
    readonly isFloor: boolean
    /** Middle of the row below; null: there is none. */
    readonly next: number | null
  },
): readonly Item[] {
  const { x, y } = at
  const [a, b] = [x(row.from), x(row.to)]
  const strong = row.kind !== 'part'
  const rank = at.heaviest.indexOf(row.name)
  const hatch = row.hatch < 0 || rank < 0 ? 'blank' : GROUP_HATCHES[rank % GROUP_HATCHES.length]!
  return [
    { ...nameOf(row.name, y, at, strong), ...partOf(row.of) },
    {
      ...box([a, y - BAR_MM / 2], Math.max(b - a, 0.3), BAR_MM, row.kind === 'price' ? 'cut' : 'symbol', hatch),
      ...partOf(row.of),
    },
    // What is reached so far is handed down to the row below.
    ...(at.next === null
      ? []
      : [
          line(
            [
              [b, y + BAR_MM / 2],
              [b, at.next - BAR_MM / 2],
            ] as Point[],
            'behind',
          ),
        ]),
    {
      ...text(
        [b + 1.6, y + 0.95],
        `${strong && at.isFloor ? 'at least ' : ''}${whole(row.to - row.from)}${strong ? `${THIN}${at.currency}` : ''}`,
        { strong, halo: true },
      ),
      ...partOf(row.of),
    },
  ]
}

/** Before its bar, or above it. */
const nameOf = (name: string, y: number, at: { readonly left: number; readonly narrow: boolean }, strong: boolean): Item =>
  at.narrow
    ? text([at.left, y - BAR_MM / 2 - 1], name, { strong, halo: true })
    : text([at.left - 2, y + 0.95], name, { anchor: 'end', strong })

/** Low, middle, high of the draws. */
function rangeItems(
  range: NonNullable<PriceStack['range']>,
  at: {
    readonly x: (money: number) => number
    readonly y: number
    readonly left: number
    readonly narrow: boolean
    readonly right: number
    readonly of: string | undefined
  },
): readonly Item[] {
  const { y, of } = at
  const [low, middle, high] = [at.x(range.lowMoney), at.x(range.middleMoney), at.x(range.highMoney)]
  const tick = (p: number): Item =>
    line(
      [
        [p - 0.7, y + 0.7],
        [p + 0.7, y - 0.7],
      ],
      'opening',
    )
  const said = `${whole(range.lowMoney)} … ${whole(range.highMoney)}, half below ${whole(range.middleMoney)}`
  const room = wordsMm(said, LETTERING_MM) / 2
  const centre = Math.min(Math.max((low + high) / 2, at.left + room), at.right - room)
  return [
    { ...nameOf(RANGE_WORDS, at.narrow ? y - 4.4 : y, at, false), ...partOf(of) },
    line(
      [
        [low, y],
        [high, y],
      ],
      'symbol',
    ),
    ...[low, high].map(tick),
    circle([middle, y], 0.75, 'symbol', 'solid'),
    { ...text([centre, y + 4.6], said, { anchor: 'middle', halo: true }), ...partOf(of) },
  ]
}

/** The price as the limit of the cost. */
function priceLine(
  money: number,
  at: { readonly x: (money: number) => number; readonly from: number; readonly to: number; readonly right: number },
): readonly Item[] {
  const p = at.x(money)
  const words = `price${THIN}${whole(money)}`
  const ends = p + 1.4 + wordsMm(words, LETTERING_MM) > at.right
  return [
    line(
      [
        [p, at.from],
        [p, at.to],
      ],
      'cut',
    ),
    text([ends ? p - 1.4 : p + 1.4, at.from + 2], words, { strong: true, halo: true, anchor: ends ? 'end' : 'start' }),
  ]
}
