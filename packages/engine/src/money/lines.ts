import { type Source, source } from '../kernel/index.ts'
import type { Price, Prices } from '../parts/index.ts'
import type { CostLine, Lacking } from './result.ts'

/** A line as it is put together: cents and currencies are settled when all are there. */
export type Draft = Omit<CostLine, 'money'>

interface Amounts {
  readonly low: number
  readonly likely: number
  readonly high: number
}

interface Written {
  readonly id: string
  readonly group: CostLine['group']
  readonly box?: string
  readonly what: string
  readonly quantity: number
  readonly per: string
  readonly from: string
  readonly rests: Source
  readonly drawnWith?: string
}

/** A line of quantity × unit price, its ends as shares below and above. */
export function unitLine(
  of: Written & { readonly price: UnitPrice | null; readonly currency: string; readonly spread?: Ends },
): Draft {
  const { price, spread = FIRM, box = null, drawnWith = null, ...line } = of
  const likely = price === null ? null : of.quantity * price.money
  return {
    ...withoutAsk(line),
    box,
    unitMoney: price?.money ?? null,
    currency: price?.currency ?? of.currency,
    likelyMoney: likely,
    lowMoney: likely === null ? null : likely * (1 + spread.lowFrac),
    highMoney: likely === null ? null : likely * (1 + spread.highFrac),
    date: price?.date ?? '',
    drawnWith: spread === FIRM ? null : drawnWith,
    chanceFrac: 1,
  }
}

/** A line of an amount with its ends. */
export function amountLine(
  of: Written & {
    readonly amounts: Amounts | null
    readonly currency: string
    readonly unitMoney: number | null
    readonly date?: string
    readonly chanceFrac?: number
  },
): Draft {
  const { amounts, box = null, drawnWith = null, date = '', chanceFrac = 1, ...line } = of
  return {
    ...withoutAsk(line),
    box,
    unitMoney: of.unitMoney,
    currency: of.currency,
    likelyMoney: amounts?.likely ?? null,
    lowMoney: amounts?.low ?? null,
    highMoney: amounts?.high ?? null,
    date,
    drawnWith,
    chanceFrac,
  }
}

const withoutAsk = ({ id, group, what, quantity, per, from, rests }: Omit<Written, 'box' | 'drawnWith'>) => ({
  ...{ id, group, what, quantity, per, from, rests },
})

export interface Ends {
  readonly lowFrac: number
  readonly highFrac: number
}
export const FIRM: Ends = { lowFrac: 0, highFrac: 0 }

export interface UnitPrice {
  readonly money: number
  readonly currency: string
  readonly date: string
}

/** Rows of the price table as money needs them, remembering which were used and which are not there. */
export interface Table {
  /** The row of this id and unit; null where there is none, and it is named as lacking. */
  unit(id: string, per: string, what: string): { readonly price: UnitPrice | null; readonly rests: Source }
  /** A row that another question has priced already. */
  used(id: string): Price | undefined
  readonly rows: readonly Price[]
  readonly lacking: readonly Lacking[]
}

export function tableOf(prices: Prices): Table {
  const rows = new Map<string, Price>()
  const lacking: Lacking[] = []
  const used = (id: string): Price | undefined => {
    const row = Object.hasOwn(prices.rows, id) ? prices.rows[id] : undefined
    if (row !== undefined) rows.set(id, row)
    return row
  }
  return {
    used,
    unit: (id, per, what) => {
      const row = used(id)
      const rests = source(`the shop’s price table, ${id}`, 'told')
      if (row === undefined || row.per !== per) {
        const why =
          row === undefined ? `no price “${id}” in the shop’s table` : `“${id}” is priced per ${row.per}, wanted per ${per}`
        if (!lacking.some((l) => l.what === what && l.why === why)) lacking.push({ what, why })
        return { price: null, rests }
      }
      return { price: { money: row.money, currency: row.currency ?? prices.currency, date: row.date }, rests }
    },
    get rows() {
      return [...rows.values()]
    },
    lacking,
  }
}
