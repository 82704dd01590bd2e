import { z } from 'zod'
import { choice, count, date, group, money, quantity, type RuleSetId, range, system, tag, text, yesNo } from '../../job/index.ts'
import type { Result } from '../../kernel/index.ts'
import { readStockSheet, versionField } from './head.ts'

export const MODULE_KINDS = ['frame', 'vent', 'bracket', 'board', 'plate'] as const
export type ModuleKind = (typeof MODULE_KINDS)[number]

const LINE = 'the line cannot be read'
const air = range(-90, 90, '-90 to 90 C')
const mass = range(0.01, 5000, '10 g to 5 t')
const area = range(0, 10, '0 to 10 m2')

const board = z
  .strictObject({
    system: system({ said: 'Voltage system it is built for.', need: 'must', absent: LINE }),
    service: quantity('current', range(0.5, 20_000, '0.5 A to 20 kA'), {
      said: 'Rating of its main and bus.',
      need: 'must',
      absent: LINE,
    }),
    interrupting: quantity('current', range(500, 300_000, '0.5 to 300 kA'), {
      said: 'Lowest interrupting rating in it.',
      need: 'must',
      absent: LINE,
    }),
    ways: count(range(1, 200, '1 to 200'), { said: 'Its ways.', need: 'must', absent: LINE }),
  })
  .meta(group('What a board gives the box it stands in.', 'must', 'a board without it cannot be read'))

const air2 = (who: string) => ({
  'air-min': quantity('temperature', air, {
    said: `Coldest outside air, ${who}.`,
    need: 'must',
    absent: 'not counted',
  }).optional(),
  'air-max': quantity('temperature', air, {
    said: `Hottest outside air, ${who}.`,
    need: 'must',
    absent: 'not counted',
  }).optional(),
})

const measured = z
  .strictObject({
    by: text({ said: 'Who measured it.', need: 'must', absent: LINE }, 120),
    on: date({ said: 'Day it was measured.', need: 'must', absent: LINE }),
    mass: quantity('mass', mass, { said: 'Mass on the scale.', need: 'must', absent: 'the drawn mass' }).optional(),
    'free-area': quantity('area', area, { said: 'Free area.', need: 'must', absent: 'the drawn one', reads: ['air'] }).optional(),
    ...air2('as tried'),
  })
  .meta(group('What was measured on one that was made; it rules over what was drawn.', 'assumed', 'as drawn'))

const mark = z
  .strictObject({
    rules: choice(['us', 'ca', 'intl'], { said: 'Rule set under which it counts.', need: 'must', absent: LINE }),
    mark: text({ said: 'Mark of approval as it stands on it.', need: 'must', absent: LINE }, 120),
    by: text({ said: 'Who says so: the plate, the maker’s letter.', need: 'must', absent: LINE }, 120),
  })
  .meta(group('Marks of approval it carries.', 'must', 'the label of a box it hangs in is unknown', ['papers']))

export const moduleSchema = z.strictObject({
  'plugstead-module': versionField('module'),
  id: tag({ said: 'Name that models call it by.', need: 'must', absent: LINE }),
  kind: choice(MODULE_KINDS, { said: 'What it is.', need: 'must', absent: LINE }),
  name: text({ said: 'Name for people.', need: 'must', absent: LINE }, 120),
  revision: text({ said: 'Revision.', need: 'must', absent: LINE }, 20),
  invented: yesNo({ said: 'Made up for an example.', need: 'assumed', absent: 'no' }).optional(),
  drawing: text({ said: 'Its drawing: file or number.', need: 'must', absent: LINE }, 200),
  mass: quantity('mass', mass, { said: 'Mass by the drawing.', need: 'must', absent: LINE }),
  price: money(null, { said: 'Price of one.', need: 'must', absent: LINE }),
  priced: date({ said: 'Day of the price.', need: 'must', absent: LINE }),
  board: board.optional(),
  'free-area': quantity('area', area, {
    said: 'Free area of a vent.',
    need: 'must',
    absent: 'air answers unknown',
    reads: ['air'],
  }).optional(),
  'exit-height': quantity('length', range(0, 5, '0 to 5 m'), {
    said: 'Lowest edge of a frame for cords above the ground.',
    need: 'must',
    absent: 'no cord leaves through it',
  }).optional(),
  ...air2('as its makers say'),
  marks: z.array(mark).optional(),
  measured: measured.optional(),
  note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
})

/** A part of the shop's own. Measured values rule over drawn ones; of two temperatures the narrower. */
export interface Module {
  readonly id: string
  readonly kind: ModuleKind
  readonly name: string
  readonly revision: string
  readonly invented: boolean
  readonly drawing: string
  readonly massKg: number
  readonly massMeasured: boolean
  readonly price: { readonly amount: number; readonly currency: string; readonly date: string }
  readonly board: {
    readonly system: string
    readonly serviceA: number
    readonly interruptingKA: number
    readonly ways: number
  } | null
  readonly freeAreaM2: number | null
  readonly exitHeightM: number | null
  readonly airMinC: number | null
  readonly airMaxC: number | null
  /** Null: nobody said. */
  readonly marks: readonly { readonly rules: RuleSetId; readonly mark: string; readonly by: string }[] | null
}

/** Reads a module sheet. Every problem at once. */
export function readModule(text: string): Result<Module> {
  const read = readStockSheet('module', moduleSchema, text)
  if (!read.ok) return read
  const row = read.value
  if ((row.kind === 'board') !== (row.board !== undefined))
    return {
      ok: false,
      problems: [
        {
          ...{
            code: 'stock/board',
            path: 'board',
            found: row.kind === 'board' ? 'a board without its ratings' : `ratings of a board on a ${row.kind}`,
          },
          ...{
            wanted: 'ratings on a board, and on nothing else',
            mend: 'Write “board:” with system, service, interrupting, ways; or change the kind.',
          },
        },
      ],
    }
  return { ok: true, value: moduleOf(row) }
}

const ends = (pick: (...all: number[]) => number, ...all: readonly (number | undefined)[]): number | null => {
  const told = all.filter((one) => one !== undefined)
  return told.length === 0 ? null : pick(...told)
}

function moduleOf(row: z.output<typeof moduleSchema>): Module {
  const { measured: m, board: b } = row
  return {
    ...{
      id: row.id,
      kind: row.kind,
      name: row.name,
      revision: row.revision,
      invented: row.invented ?? false,
      drawing: row.drawing,
    },
    massKg: m?.mass ?? row.mass,
    massMeasured: m?.mass !== undefined,
    price: { amount: row.price.amount, currency: row.price.currency, date: row.priced },
    board:
      b === undefined ? null : { system: b.system, serviceA: b.service, interruptingKA: b.interrupting / 1000, ways: b.ways },
    freeAreaM2: m?.['free-area'] ?? row['free-area'] ?? null,
    exitHeightM: row['exit-height'] ?? null,
    airMinC: ends(Math.max, row['air-min'], m?.['air-min']),
    airMaxC: ends(Math.min, row['air-max'], m?.['air-max']),
    marks: row.marks ?? null,
  }
}
