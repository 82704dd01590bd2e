import type { Source } from '../../kernel/index.ts'

/** What the shop knows of its own people, days and lead times. Absent: recorded defaults. */
export interface ShopCrew {
  readonly people?: Readonly<Partial<Record<Trade, number>>>
  readonly hoursPerDay?: number
  /** Monday 0 … Sunday 6. */
  readonly weekdays?: readonly number[]
  /** Place whose holidays the shop keeps. */
  readonly holidays?: string
  readonly closed?: readonly { readonly from: string; readonly to: string; readonly why: string }[]
  readonly booked?: readonly {
    readonly trade: Trade
    readonly from: string
    readonly to: string
    readonly shareFrac: number
    readonly why: string
  }[]
  /** Air where paint hardens. */
  readonly bayC?: number
  /** Working days, by task: `buy panel`, `label-booking`. */
  readonly leads?: Readonly<Record<string, { readonly low: number; readonly likely: number; readonly high: number }>>
}

type Trade = 'welder' | 'electrician' | 'helper' | 'painter'

export type TaskGroup = 'order' | 'supply' | 'papers' | 'buy' | 'shop' | 'site' | 'live' | 'interim'

export interface ChainTask {
  readonly id: string
  readonly what: string
  readonly group: TaskGroup
  readonly who: string
  readonly after: readonly string[]
  /** Days on which it goes on, in words. */
  readonly calendar: string
  /** In days of its calendar. */
  readonly takes: { readonly low: number; readonly likely: number; readonly high: number }
  /** Whether least and most were told, or assumed around what is likely. */
  readonly spread: 'told' | 'assumed' | 'none'
  /** First and last day of it, everything as likely; null: not known, or never. */
  readonly start: string | null
  readonly finish: string | null
  /** Such that the day needed is kept; null: not known. */
  readonly latestStart: string | null
  readonly latestFinish: string | null
  /** Days of its calendar by which it can slip without moving the end of this chain. */
  readonly slackDays: number | null
  readonly critical: boolean
  /** Crew of the shop that it takes, the working days it waits for that crew alone, and at what the crew is; null: none, or not known. */
  readonly crew: { readonly trade: string; readonly waitsDays: number; readonly behind: readonly string[] } | null
  /** Day by whose evening nine of ten draws have it finished. */
  readonly nineInTen: string | null
  readonly done: string | null
  readonly must: 'past' | 'today' | 'soon' | 'later' | 'done' | 'not known'
  readonly rests: Source
  readonly assumed: readonly string[]
}

export interface ClosedTime {
  readonly what: 'road' | 'digging' | 'pads' | 'site' | 'shop' | 'offices'
  readonly from: string
  readonly to: string
  readonly said: string
  readonly rests: Source
}

/** What one act brings. */
export interface ChainAct {
  readonly act: string
  readonly words: string
  readonly earliest: string
  /** Days of the calendar by which the end comes sooner. */
  readonly savedDays: number
}

export interface Chance {
  readonly drawsCount: number
  readonly seed: number
  /** Share of draws in which nothing is live by the day needed, interim counted. */
  readonly lateFrac: number | null
  /** The same without the interim. */
  readonly withoutInterimFrac: number | null
  /** By the mean and variance along the critical path and the normal distribution: cross-check, approximate. */
  readonly pertFrac: number | null
  readonly halfBy: string | null
  readonly eightInTenBy: string | null
  readonly nineInTenBy: string | null
}

export interface DatesResult {
  /** Day the chain begins: told at the edge, else the day of the order. */
  readonly today: string | null
  readonly needed: string | null
  /** Where the day needed comes from. */
  readonly neededFrom: string
  /** Day on which everything is live, everything as likely. */
  readonly earliest: string | null
  /** The same if every crew could do everything at once. */
  readonly earliestAlone: string | null
  readonly interimFrom: string | null
  readonly interim: string | null
  /** Working days between live and needed; negative: late. */
  readonly marginDays: number | null
  /** Last day of the order that keeps the day needed. */
  readonly orderBy: string | null
  /** Days from the order to live on a calendar without holidays and closed times; where no day is known. */
  readonly leastDays: number | null
  readonly chain: readonly ChainTask[]
  readonly critical: readonly string[]
  readonly closed: readonly ClosedTime[]
  readonly chance: Chance | null
  readonly acts: readonly ChainAct[]
  readonly mustStart: readonly string[]
  readonly holidays: { readonly place: string; readonly days: readonly { readonly date: string; readonly name: string }[] }
}
