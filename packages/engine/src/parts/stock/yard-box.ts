import { z } from 'zod'
import {
  type BuiltBody,
  type BuiltBox,
  built,
  builtBodyOf,
  builtOf,
  date,
  group,
  type MoneyRead,
  money,
  quantity,
  range,
  tag,
  text,
  yesNo,
} from '../../job/index.ts'
import type { Problem, Result } from '../../kernel/index.ts'
import { readStockSheet, versionField } from './head.ts'

const LINE = 'the line cannot be read'
const distance = range(0, 2e7, '0 to 20 000 km')

const booking = z
  .strictObject({
    from: date({ said: 'First day.', need: 'must', absent: LINE }),
    to: date({ said: 'Last day.', need: 'must', absent: LINE }),
    for: text({ said: 'For whom or which call.', need: 'must', absent: LINE }, 200),
  })
  .meta(group('Hires it already has.', 'assumed', 'none'))

const call = z
  .strictObject({
    call: tag({ said: 'Name of the call’s document, without its ending.', need: 'must', absent: LINE }),
    away: quantity('length', distance, {
      said: 'Way to haul it there, one way.',
      need: 'must',
      absent: 'its haul is not priced',
    }),
  })
  .meta(group('Calls it was looked at for, and how far each is.', 'assumed', 'none'))

export const yardSchema = z.strictObject({
  'plugstead-yard': versionField('yard'),
  id: tag({ said: 'Name on the box.', need: 'must', absent: LINE }),
  invented: yesNo({ said: 'Made up for an example.', need: 'assumed', absent: 'no' }).optional(),
  stands: text({ said: 'Where it stands.', need: 'assumed', absent: 'in the yard' }, 200).optional(),
  tested: date({ said: 'Day of its last full test.', need: 'must', absent: 'a full test first' }).optional(),
  rent: money('28 days', { said: 'Rent for 28 days.', need: 'must', absent: 'its price is unknown' }).optional(),
  bookings: z
    .array(booking)
    .meta(group('Hires it already has.', 'assumed', 'none'))
    .optional(),
  calls: z
    .array(call)
    .meta(group('Calls it was looked at for.', 'assumed', 'none'))
    .optional(),
  built,
  note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
})

export interface Booking {
  readonly from: string
  readonly to: string
  readonly for: string
}

/** A box that stands, as built: facts, not choices. */
export interface YardBox {
  readonly id: string
  readonly invented: boolean
  readonly stands: string
  readonly testedOn: string | null
  readonly rentPer28Days: MoneyRead | null
  readonly bookings: readonly Booking[]
  readonly calls: readonly { readonly call: string; readonly awayM: number }[]
  readonly built: BuiltBox
  readonly body: BuiltBody
}

export function readYardBox(text: string): Result<YardBox> {
  const read = readStockSheet('yard', yardSchema, text)
  if (!read.ok) return read
  const row = read.value
  const problems = [
    ...(row.bookings ?? []).flatMap((b, i): readonly Problem[] =>
      b.from <= b.to
        ? []
        : [
            {
              ...{
                code: 'stock/booking',
                path: `bookings[${i}]`,
                found: `${b.from} to ${b.to}`,
                wanted: 'a last day on or after the first',
              },
              mend: 'Turn the two days round.',
            },
          ],
    ),
    ...(row.tested !== undefined && row.built['last-full-test'] !== undefined
      ? [
          {
            ...{ code: 'stock/tested-twice', path: 'built.last-full-test', found: 'a last full test told twice' },
            ...{ wanted: 'one day', mend: 'Keep “tested” with its date, and take “last-full-test” away.' },
          },
        ]
      : []),
  ]
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    value: {
      id: row.id,
      invented: row.invented ?? false,
      stands: row.stands ?? 'in the yard',
      testedOn: row.tested ?? null,
      rentPer28Days: row.rent ?? null,
      bookings: row.bookings ?? [],
      calls: (row.calls ?? []).map((c) => ({ call: c.call, awayM: c.away })),
      built: builtOf(row.built)!,
      body: builtBodyOf(row.built)!,
    },
  }
}
