import { describe, expect, test } from 'vitest'
import type { Job } from '../job/index.ts'
import type { PlanResult } from '../plan/index.ts'
import { earliestOf } from './days.ts'

const job = { needs: { orderDate: '2027-07-12' } } as Job
const ready = { leadDays: 28, workDays: 6 }
/** 28 days from the order, and six working days, which take eight. */
const BOX_DAY = '2027-08-17'

const fresh = (told: string | null, feed: readonly (string | null)[]): PlanResult =>
  ({
    chosen: { ready: told },
    assessment: {
      results: {
        dates: { chain: [{ group: 'shop', finish: '2028-01-01' }, ...feed.map((finish) => ({ group: 'supply', finish }))] },
      },
    },
  }) as unknown as PlanResult

describe('first day a candidate can be live', () => {
  test('the later of the box and the source', () => {
    expect(earliestOf(job, fresh('2027-08-01', []), ready)).toBe(BOX_DAY)
    expect(earliestOf(job, fresh('2027-09-01', []), ready)).toBe('2027-09-01')
  })

  test('a source whose lead time nobody told comes when the chain of the plan has it; a told day wins over the chain', () => {
    expect(earliestOf(job, fresh(null, ['2027-08-30', '2027-09-03']), ready)).toBe('2027-09-03')
    expect(earliestOf(job, fresh('2027-09-01', ['2027-12-01']), ready)).toBe('2027-09-01')
  })

  test('without a day of the box, the source or the order there is none', () => {
    expect(earliestOf(job, fresh(null, []), ready)).toBe(null)
    expect(earliestOf(job, fresh(null, [null, '2027-09-03']), ready)).toBe(null)
    expect(earliestOf(job, fresh('2027-09-01', []), { ...ready, leadDays: null })).toBe(null)
    expect(earliestOf({ needs: { orderDate: null } } as Job, fresh('2027-09-01', []), ready)).toBe(null)
  })
})
