import type { Source } from '../../kernel/index.ts'
import type { LeadName } from './figures.ts'
import { figure, usualLead } from './figures.ts'
import type { ShopCrew, TaskGroup } from './result.ts'
import type { ThreePoint } from './three-point.ts'

export type CrewTrade = 'welder' | 'electrician' | 'helper' | 'painter'

/** Days on which a task can go on. */
export type DaysOf =
  | 'every day'
  | 'office days'
  | 'site days'
  | 'digging days'
  | 'pad days'
  | 'road days'
  | 'days a crew can reach it'
  | 'days a crew can dig'
  | `shop days of the ${CrewTrade}`

/** A task of the chain before it has a place in the calendar. */
export interface Task {
  readonly id: string
  readonly what: string
  readonly group: TaskGroup
  readonly who: string
  readonly after: readonly string[]
  readonly days: DaysOf
  /** A time that was told in weeks counts weekends too; closed times still rest. */
  readonly everyDay: boolean
  readonly takes: ThreePoint
  /** Least and most were told by whoever does it. */
  readonly spreadTold?: boolean
  /** Takes the whole crew of the trade while it goes on. */
  readonly crew?: CrewTrade
  readonly together?: string
  readonly notBeforeD?: number
  readonly doneD?: number
  readonly rests: Source
  readonly assumed: readonly string[]
}

/** A task that takes what the shop's page, or else the table, says. */
export function usual(
  lead: LeadName,
  crew: ShopCrew,
  task: Pick<Task, 'what' | 'group' | 'who' | 'after'> & Partial<Pick<Task, 'id' | 'days'>>,
): Task {
  const own = crew.leads?.[lead]
  const row = usualLead(lead)
  const id = task.id ?? lead.replaceAll(' ', '-')
  return {
    ...{ ...task, id },
    days: task.days ?? (own === undefined && row.unit === 'days' ? 'every day' : 'office days'),
    everyDay: false,
    takes: own ?? { low: row.low, likely: row.likely, high: row.high },
    ...(own === undefined ? {} : { spreadTold: true }),
    rests: own === undefined ? row.rests : { place: `shop.yaml, lead-times, ${lead}`, provenance: 'told' },
    assumed: own === undefined ? [`facts.tasks.${id}`] : [],
  }
}

/** Three points around a time that was told. */
export const toldSpan = (likely: number, low: number | null = null, high: number | null = null): ThreePoint => ({
  low: Math.min(low ?? likely * figure('told least'), likely),
  likely,
  high: Math.max(high ?? likely * figure('told most'), likely),
})
