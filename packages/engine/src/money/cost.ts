import type { HaulResult } from '../haul/result.ts'
import type { Job } from '../job/index.ts'
import { Fault } from '../kernel/index.ts'
import type { Prices } from '../parts/index.ts'
import type { SupplyResult } from '../power/supply/result.ts'
import { type BoxShop, type ShopResult, TRADES } from '../shop/result.ts'
import { amountLine, type Draft, type Table, tableOf, unitLine } from './lines.ts'
import type { MoneyPolicy, Risk, Service } from './policy.ts'
import { hourPrice, hoursLine, overheadPrice, ownRate, told, toldOf } from './rates.ts'
import type { ChangesCost, Lacking } from './result.ts'
import { changeLines, standingBox, worthLine } from './stands.ts'
import { triangleMean } from './triangle.ts'

export interface CostInputs {
  readonly job: Pick<Job, 'surveys' | 'money' | 'tariff' | 'boxes' | 'builtBody'>
  readonly prices: Prices
  readonly policy: MoneyPolicy
  readonly shop: ShopResult
  readonly haul: HaulResult
  readonly supply: SupplyResult
  /** Of the box that stands; absent: no plan has sought them. */
  readonly changes?: ChangesCost
}

export interface Drafted {
  readonly lines: readonly Draft[]
  readonly lacking: readonly Lacking[]
  readonly table: Table
}

/** Every line of the cost, in the order of the sheet. Nothing is left out in silence: what has no price is a line without money. */
export function draftedCost(inputs: CostInputs): Drafted {
  const table = tableOf(inputs.prices)
  if (inputs.shop.boxes.length === 0) return { lines: [], lacking: [], table }
  const lacking: Lacking[] = []
  const boxes = inputs.shop.boxes
  const standing = standingBox(inputs.job)
  const built = boxes.filter((b) => b.box !== standing)
  const base = [
    ...(standing === null ? [] : worthLine(inputs, standing, lacking)),
    ...built.flatMap((b) => boxLine(inputs, b, table)),
    ...(standing === null ? [] : changeLines(inputs, standing, table, lacking)),
    ...built.flatMap((b) => materialLines(inputs, b, table, lacking)),
    ...built.flatMap((b) => labourLines(inputs, b, table)),
    ...built.flatMap((b) => overheadLines(inputs, b, table)),
    ...serviceLines(inputs, table),
  ]
  const lines = [
    ...base,
    ...haulLines(inputs, table),
    ...riskLines(inputs),
    ...warrantyLines(inputs, base),
    ...feeLines(inputs, lacking),
  ]
  return { lines, lacking: [...lacking, ...table.lacking], table }
}

function boxLine({ job, prices }: CostInputs, { box, type }: BoxShop, table: Table): readonly Draft[] {
  const asked = toldOf(job).usedBoxMoney
  const id = `box/${type}`
  const what = `steel box of ${box}, used`
  const own = asked === null ? table.unit(id, 'each', what) : null
  return [
    unitLine({
      ...{ id, group: 'box', box, what, quantity: 1, per: 'each', from: type },
      price: own?.price ?? (asked === null ? null : { money: asked, currency: job.money.currency, date: '' }),
      currency: job.money.currency ?? prices.currency,
      rests: own?.rests ?? told('needs.money.used-box'),
    }),
  ]
}

/** The bill of `shop`, sheet by sheet, as it stands there; what packs and waste add; and what no bill counts. */
function materialLines(inputs: CostInputs, b: BoxShop, table: Table, lacking: Lacking[]): readonly Draft[] {
  const { bill, box } = b
  const { spread, consumablesFrac } = inputs.policy
  for (const line of bill.lines) {
    table.used(line.id)
    if (line.money === null) lacking.push({ what: `${line.what}, ${line.quantity} ${line.per}`, why: missingWhy(bill, line.id) })
  }
  const rests = told('the shop’s price table and its bill')
  const dateOf = (sheet: string) =>
    bill.lines
      .filter((l) => l.sheet === sheet && l.date !== '')
      .map((l) => l.date)
      .toSorted()[0] ?? ''
  const sheets = bill.sheets
    .filter((s) => s.linesCount > 0)
    .map((s) =>
      unitLine({
        ...{ id: `material/${s.sheet}`, group: 'material', box, what: `${s.sheet}, ${s.linesCount} lines of the bill` },
        ...{ quantity: 1, per: 'sheet', from: 'bill', rests, currency: bill.currency },
        price: { money: s.money, currency: bill.currency, date: dateOf(s.sheet) },
        spread: spread.material,
        drawnWith: `material ${s.sheet}`,
      }),
    )
  const extra = bill.lines.flatMap((l) => {
    const row = table.used(l.id)
    return l.money === null || row === undefined ? [] : [boughtOnTop(l.quantity, row) * row.money]
  })
  const onTop = extra.reduce((a, c) => a + c, 0)
  const sum = bill.totalMoney + onTop
  const share = (id: string, what: string, money: number, from: string): readonly Draft[] =>
    money === 0
      ? []
      : [
          unitLine({
            ...{ id, group: 'material', box, what, quantity: 1, per: 'lot', from, rests, currency: bill.currency },
            price: { money, currency: bill.currency, date: '' },
            spread: spread.material,
            drawnWith: id,
          }),
        ]
  return [
    ...sheets,
    ...share(
      'material/packs and waste',
      'whole packs, and what is spoiled',
      onTop,
      'rows of the price table that name a pack or waste',
    ),
    ...share(
      'material/consumables',
      'paint, screws, marks and the like',
      consumablesFrac * sum,
      `${Number((consumablesFrac * 100).toFixed(2))} % of the material`,
    ),
  ]
}

const missingWhy = (bill: BoxShop['bill'], id: string): string =>
  bill.missing.find((m) => m.id === id)?.why ?? 'no price in the table'

/** How much more is bought than counted: waste on top, then up to whole packs. */
export function boughtOnTop(quantity: number, row: { readonly packCount?: number; readonly wasteFrac?: number }): number {
  const wasted = quantity * (1 + (row.wasteFrac ?? 0))
  const bought = row.packCount === undefined ? wasted : Math.ceil(wasted / row.packCount - PACK_SLACK) * row.packCount
  return bought - quantity
}
/** A pack of 100 holds 100 although a sum of lengths says 100.00000000000001. */
const PACK_SLACK = 1e-9

/** Hours low, middle, high × the loaded rate of the job, else of the shop's table. All hours of a trade move together. */
function labourLines(inputs: CostInputs, { box, hours }: BoxShop, table: Table): readonly Draft[] {
  return TRADES.filter((t) => hours.byTrade[t].middle > 0).map((trade) => {
    const rate = hourPrice(inputs, trade, table)
    return hoursLine({ id: `hours/${trade}`, group: 'labour', box, what: `${trade}’s hours` }, hours.byTrade[trade], rate, trade)
  })
}

/** Every hour of the shop carries its share of rent, light and office. */
function overheadLines(inputs: CostInputs, { box, hours }: BoxShop, table: Table): readonly Draft[] {
  const rate = overheadPrice(inputs, table, box)
  return TRADES.filter((t) => hours.byTrade[t].middle > 0).map((trade) =>
    hoursLine(
      { id: `overhead/${trade}`, group: 'overhead', box, what: `shop overhead on the ${trade}’s hours` },
      hours.byTrade[trade],
      rate,
      trade,
    ),
  )
}

/** Set down by something that hangs from a hook; forks, side-lift and tilt-bed come with the truck. */
const HOOKED: ReadonlySet<string> = new Set(['top spreader, vertical', 'top slings, inclined', 'bottom slings with spreader'])
const craned = ({ haul }: CostInputs): readonly string[] =>
  haul.boxes.filter((b) => HOOKED.has(b.design.unload)).map((b) => b.box)

function serviceLines(inputs: CostInputs, table: Table): readonly Draft[] {
  return inputs.policy.services.flatMap((service) =>
    countsOf(service, inputs).map(({ box, quantity, from }) => {
      const { price, rests } = table.unit(service.id, PRICED_PER[service.per], service.what)
      return unitLine({
        ...{ id: service.id, group: 'bought', what: service.what, quantity, per: PRICED_PER[service.per], from, rests },
        ...(box === null ? {} : { box }),
        ...{ price, currency: inputs.prices.currency, spread: inputs.policy.spread.bought },
        drawnWith: `${service.id} ${box ?? ''}`,
      })
    }),
  )
}

const PRICED_PER: Readonly<Record<Service['per'], string>> = { box: 'each', job: 'each', 'paint m2': 'm2', 'crane call': 'each' }

interface Counted {
  readonly box: string | null
  readonly quantity: number
  readonly from: string
}

function countsOf({ per }: Service, inputs: CostInputs): readonly Counted[] {
  const { boxes } = inputs.shop
  if (boxes.length === 0) return []
  if (per === 'job') return [{ box: null, quantity: 1, from: 'the job' }]
  if (per === 'box') return boxes.map(({ box }) => ({ box, quantity: 1, from: 'each box' }))
  // What stands is not painted anew; a change list that asks for paint says so.
  if (per === 'paint m2')
    return boxes
      .filter(({ box }) => box !== standingBox(inputs.job))
      .map(({ box, hours }) => ({ box, quantity: hours.paintM2, from: 'outside of the box' }))
  return craned(inputs).map((box) => ({ box, quantity: 1, from: 'set down by crane' }))
}

/** One way, to the place where it stands. */
function haulLines(inputs: CostInputs, table: Table): readonly Draft[] {
  const asked = toldOf(inputs.job).haulMoney
  return inputs.shop.boxes.map(({ box }) => {
    const what = `haul of ${box} to the place, one way`
    const { price, rests } =
      asked === null ? table.unit('haul/one way', 'each', what) : ownRate(inputs, asked, 'needs.money.haul')
    return unitLine({
      ...{ id: 'haul/one way', group: 'haul', box, what, quantity: 1, per: 'each', from: 'one way', rests, price },
      ...{ currency: inputs.job.money.currency, spread: inputs.policy.spread.haul, drawnWith: 'haul' },
    })
  })
}

function riskLines(inputs: CostInputs): readonly Draft[] {
  const there = (risk: Risk): readonly string[] => {
    const boxes = inputs.shop.boxes.map((b) => b.box)
    if (risk.when === 'always') return boxes
    if (risk.when === 'crane') return craned(inputs)
    return boxes.filter((box) => !inputs.job.surveys.some((s) => s.box === box))
  }
  return inputs.policy.risks.flatMap((risk) =>
    there(risk).map((box) => {
      const mean = triangleMean(risk)
      return amountLine({
        ...{ id: `risk/${risk.what}`, group: 'risk', box, what: risk.what, quantity: risk.chanceFrac, per: 'chance' },
        ...{ from: `risk list, ${risk.when}`, rests: told('the shop’s risk list'), drawnWith: `risk ${risk.what} ${box}` },
        ...{ unitMoney: mean, currency: risk.currency, chanceFrac: risk.chanceFrac },
        amounts: { low: risk.lowMoney, likely: risk.chanceFrac * mean, high: risk.highMoney },
      })
    }),
  )
}

/** A share of what may have to be made good; one line for each currency that it stands in. */
function warrantyLines({ policy, job }: CostInputs, base: readonly Draft[]): readonly Draft[] {
  if (policy.warrantyFrac === 0) return []
  return [
    ...Map.groupBy(
      base.filter((l) => l.likelyMoney !== null),
      (l) => l.currency,
    ),
  ].map(([currency, lines]) => {
    const sum = lines.reduce((a, l) => a + (l.likelyMoney ?? 0), 0)
    return unitLine({
      ...{ id: 'warranty', group: 'warranty', what: 'set aside for the warranty', quantity: policy.warrantyFrac, per: 'share' },
      ...{ from: 'of box, material, work and bought services', rests: told('the shop’s page, money.warranty') },
      ...{ price: { money: sum, currency, date: '' }, currency: job.money.currency },
    })
  })
}

/** What the utility or the neighbour is paid once, handed on as it is. A box pays it when it stands there for the first time. */
function feeLines({ supply, job }: CostInputs, lacking: Lacking[]): readonly Draft[] {
  const seen = new Set<string>()
  return supply.boxes.flatMap(({ box, chosenRow }) => {
    if (seen.has(box) || chosenRow === null || chosenRow.kind === 'generator') return []
    seen.add(box)
    const { feeMoney, offer, what, kind } = chosenRow
    if (feeMoney === null && kind === 'neighbour') return []
    if (feeMoney === null) lacking.push({ what: `one-off of the utility for ${box}`, why: `offer ${offer} names none` })
    return [
      unitLine({
        ...{
          id: `fee/${offer}`,
          group: 'fees',
          box,
          what: `paid once for ${what}`,
          quantity: 1,
          per: 'each',
          from: `offer ${offer}`,
        },
        ...{ rests: told(`facts.supply.offers, ${offer}`), currency: job.money.currency },
        price: feeMoney === null ? null : { money: feeMoney, currency: job.tariff.currency, date: '' },
      }),
    ]
  })
}

/** Groups that bear the warranty: its share moves with them when they are drawn. */
export const WARRANTED: ReadonlySet<string> = new Set(['box', 'material', 'labour', 'overhead', 'bought'])

/** @throws Fault `money/line-ends` where a line's ends are out of order */
export function checkedLines(lines: readonly Draft[]): readonly Draft[] {
  for (const l of lines)
    if (l.chanceFrac === 1 && l.likelyMoney !== null && !(l.lowMoney! <= l.likelyMoney && l.likelyMoney <= l.highMoney!))
      throw new Fault('money/line-ends', l.id)
  return lines
}
