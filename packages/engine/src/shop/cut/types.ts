import type { Working } from '../../kernel/index.ts'

export interface CutRequest {
  readonly stocks: readonly {
    readonly id: string
    readonly lengthMm: number
    /** null: no price is known. Money counts only where every kind has one. */
    readonly costMoney: number | null
    /** null: as many as wanted. */
    readonly count: number | null
  }[]
  readonly kerfMm: number
  /** Taken off each end of each bar, its saw cut included. */
  readonly trimMm: number
  readonly pieces: readonly {
    readonly id: string
    readonly lengthMm: number
    readonly count: number
    readonly label: string
  }[]
  /** From this length on a remnant goes back on the rack. Default 300. */
  readonly keepMm?: number
}

/** One piece of a bar, in the order of cutting. */
export interface CutPiece {
  readonly lengthMm: number
  /** From the datum end of the bar. */
  readonly fromMm: number
  /** The mark: the piece ends here, the blade stands beyond. */
  readonly sawMm: number
  /** False: the piece ends where the bar ends, and is not sawn off. */
  readonly sawn: boolean
  /** Which piece it is on each of the bars that are cut so. */
  readonly ids: readonly string[]
  readonly labels: readonly string[]
}

export interface CutBar {
  /** Id of the stock. */
  readonly stock: string
  readonly lengthMm: number
  /** How many bars are cut so. */
  readonly times: number
  readonly pieces: readonly CutPiece[]
  /** Behind the last cut, without the trim. */
  readonly remnantMm: number
  /** Whether the remnant is long enough to be kept. */
  readonly keep: boolean
  /** Turned to dust between and behind the pieces. Pieces + saw + trims + remnant = bar. */
  readonly sawnOffMm: number
  /** Both ends together. */
  readonly trimMm: number
}

/** Why there is no plan, with both numbers. */
export type CutLack =
  | { readonly kind: 'too long'; readonly id: string; readonly lengthMm: number; readonly longestMm: number }
  | { readonly kind: 'too little'; readonly neededMm: number; readonly thereMm: number }
  | { readonly kind: 'no arrangement'; readonly neededMm: number; readonly thereMm: number }

export interface CutPlan {
  /** `none`: proven impossible, see `lacks`. `given up`: nothing was found and nothing is proven. */
  readonly outcome: 'cut' | 'none' | 'given up'
  /** `money` where every kind of stock has a price: least money, then fewest bars. */
  readonly goal: 'money' | 'bars'
  readonly bars: readonly CutBar[]
  readonly count: number
  readonly costMoney: number | null
  /** No plan needs fewer bars; with goal `money`, none costs less. */
  readonly bound: number
  /** `material`: by length alone; `linear`: linear relaxation; `search`: every cheaper purchase was ruled out. */
  readonly boundKind: 'material' | 'linear' | 'search'
  readonly proven: boolean
  /** Found less bound, in the bound's unit; null without a plan. */
  readonly gap: number | null
  /** Bars by the plain first-fit-decreasing rule; null where it runs out of stock. */
  readonly ffdCount: number | null
  /** Different ways to cut, and the number below which none can be. Sought, not proven. */
  readonly setUps: { readonly count: number; readonly least: number }
  /** Of the longest remnant; 0 without. */
  readonly remnantMostMm: number
  readonly lacks: readonly CutLack[]
  /** Steps counted: the same request always takes the same. */
  readonly work: number
  readonly working: Working
}
