import type { JobDocument } from './schema/job.ts'

type Facts = NonNullable<JobDocument['facts']>

/** What the document says of the chain of dates. Null: nobody said. */
export interface DatesFacts {
  readonly tasks: readonly TaskFact[]
  readonly closed: readonly ClosedFact[]
  readonly permits: readonly {
    readonly what: string
    readonly by: string | null
    readonly status: 'not asked' | 'asked' | 'given' | 'refused'
  }[]
  /** Place whose holidays are kept: `us`, `ca-bc`. */
  readonly holidays: string | null
  /** First and last day of the season, day and month, as written. */
  readonly season: { readonly from: string | null; readonly to: string | null }
  /** From when a box that stands is free, as written. */
  readonly boxFree: string | null
}

export interface TaskFact {
  readonly task: string
  readonly done: string | null
  readonly notBefore: string | null
  readonly takesDays: number | null
  readonly leastDays: number | null
  readonly mostDays: number | null
  readonly by: string | null
}

export interface ClosedFact {
  readonly what: 'road' | 'digging' | 'site' | 'shop' | 'offices'
  readonly from: string
  readonly to: string
  readonly why: string | null
}

const DAY_S = 86_400
const days = (seconds: number | undefined): number | null => (seconds === undefined ? null : seconds / DAY_S)

export function datesOf(
  facts: Facts | undefined,
  season: { readonly from?: string | undefined; readonly to?: string | undefined } | undefined,
): DatesFacts {
  return {
    tasks: (facts?.tasks ?? []).map((row) => ({
      task: row.task,
      done: row.done ?? null,
      notBefore: row['not-before'] ?? null,
      takesDays: days(row.takes),
      leastDays: days(row.least),
      mostDays: days(row.most),
      by: row.by ?? null,
    })),
    closed: (facts?.closed ?? []).map((row) => ({ what: row.what, from: row.from, to: row.to, why: row.why ?? null })),
    permits: (facts?.permits ?? []).map((row) => ({ what: row.what, by: row.by ?? null, status: row.status ?? 'not asked' })),
    holidays: facts?.site?.holidays ?? null,
    season: { from: season?.from ?? null, to: season?.to ?? null },
    boxFree: facts?.built?.['free-from'] ?? null,
  }
}

export const UNTOLD_DATES: DatesFacts = datesOf(undefined, undefined)
