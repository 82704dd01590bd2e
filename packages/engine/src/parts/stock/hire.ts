import { z } from 'zod'
import { count, money, range } from '../../job/index.ts'
import type { Problem, Result } from '../../kernel/index.ts'
import { readStockSheet, versionField } from './head.ts'

const own = (said: string, per: string | null = null) =>
  money(per, { said, need: 'must', absent: 'that part has no price' }).optional()

export const hireSchema = z.strictObject({
  'plugstead-hire': versionField('hire'),
  'haul-per-km': own('Haul, for each km one way.', 'km'),
  'crane-call': own('A crane for one set-down.'),
  'turn-round': own('Cleaning and looking over after each hire.'),
  'full-test': own('One full test.'),
  electrician: own('Loaded hour of an electrician.', 'h'),
  'turn-round-days': count(range(0, 365, '0 to 365'), {
    said: 'Days a box needs between two hires, hauls included.',
    need: 'assumed',
    absent: '0: only days that overlap count',
  }).optional(),
})

/** What a hire costs beside the rent, in one currency. Null: it has no price. */
export interface Hire {
  readonly currency: string | null
  readonly haulPerKmMoney: number | null
  readonly craneCallMoney: number | null
  readonly turnRoundMoney: number | null
  readonly fullTestMoney: number | null
  readonly electricianPerHMoney: number | null
  readonly turnRoundDays: number
}

export const NO_HIRE: Hire = {
  ...{ currency: null, haulPerKmMoney: null, craneCallMoney: null, turnRoundMoney: null, fullTestMoney: null },
  ...{ electricianPerHMoney: null, turnRoundDays: 0 },
}

export function readHire(text: string): Result<Hire> {
  const read = readStockSheet('hire', hireSchema, text)
  if (!read.ok) return read
  const row = read.value
  const all = [row['haul-per-km'], row['crane-call'], row['turn-round'], row['full-test'], row.electrician]
  const currencies = [...new Set(all.flatMap((m) => (m === undefined ? [] : [m.currency])))]
  if (currencies.length > 1) {
    const problem: Problem = {
      ...{ code: 'stock/currencies', path: '', found: currencies.join(' and '), wanted: 'one currency' },
      mend: 'Write every price of the sheet in one currency: two are never added.',
    }
    return { ok: false, problems: [problem] }
  }
  const money = (at: number) => all[at]?.amount ?? null
  return {
    ok: true,
    value: {
      ...{ currency: currencies[0] ?? null, haulPerKmMoney: money(0), craneCallMoney: money(1), turnRoundMoney: money(2) },
      ...{ fullTestMoney: money(3), electricianPerHMoney: money(4), turnRoundDays: row['turn-round-days'] ?? 0 },
    },
  }
}
