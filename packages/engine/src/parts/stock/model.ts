import { z } from 'zod'
import {
  type BuiltBody,
  type BuiltBox,
  builtOf,
  choice,
  circuit,
  cord,
  count,
  date,
  group,
  money,
  quantity,
  type RuleSetId,
  range,
  special,
  tag,
  text,
  texts,
  yesNo,
} from '../../job/index.ts'
import type { Problem, Result } from '../../kernel/index.ts'
import { readStockSheet, versionField } from './head.ts'
import type { Module } from './module.ts'

const LINE = 'the line cannot be read'
const M_PER_FT = 0.3048

const use = z
  .strictObject({
    module: tag({ said: 'Module.', need: 'must', absent: LINE }),
    revision: text({ said: 'Revision the model was drawn with.', need: 'must', absent: LINE }, 20),
    count: count(range(1, 500, '1 to 500'), { said: 'How many.', need: 'assumed', absent: '1' }).optional(),
  })
  .meta(group('Modules it is made of. One of them is a board.', 'must', 'the sheet cannot be read'))

const choices = z
  .strictObject({
    length: quantity('length', range(1.9, 16.5, '1.9 to 16.5 m (8 to 53 ft)'), { said: 'Length.', need: 'must', absent: LINE }),
    height: choice(['standard', 'high'], { said: 'Standard or high cube.', need: 'must', absent: LINE }),
    paint: text({ said: 'Colour and coating.', need: 'must', absent: LINE }),
    insulation: text({ said: 'Insulation, or “none”.', need: 'must', absent: LINE, reads: ['air'] }),
    heater: text({
      said: 'Heater of the box and where it stands, or “none”.',
      need: 'must',
      absent: 'its places are unknown',
      reads: ['air'],
    }).optional(),
    circuits: z.array(circuit).meta(group('Circuits, alike ones in one row.', 'must', LINE)),
    cords: z
      .array(cord)
      .meta(group('Cords that go with it.', 'must', 'none are counted'))
      .optional(),
    'neutral-bond': text({ said: 'Where neutral and earth are bonded.', need: 'must', absent: LINE }),
    tare: quantity('mass', range(500, 50_000, '0.5 to 50 t'), {
      said: 'Tare of the bare container.',
      need: 'must',
      absent: LINE,
    }),
    'other-mass': quantity('mass', range(0, 50_000, '0 to 50 t'), {
      said: 'Mass of what is built in beside its modules.',
      need: 'must',
      absent: LINE,
    }),
  })
  .meta(group('Pinned choices: what the shop builds every time. None is changed in silence.', 'must', LINE))

export const modelSchema = z.strictObject({
  'plugstead-model': versionField('model'),
  id: tag({ said: 'Name that lists call it by.', need: 'must', absent: LINE }),
  name: text({ said: 'Name for people.', need: 'must', absent: LINE }, 120),
  revision: text({ said: 'Revision.', need: 'must', absent: LINE }, 20),
  invented: yesNo({ said: 'Made up for an example.', need: 'assumed', absent: 'no' }).optional(),
  rules: choice(['us', 'ca', 'intl'], { said: 'Rule set it is built under.', need: 'must', absent: LINE }),
  price: money(null, { said: 'Price of one, as it leaves the shop.', need: 'must', absent: LINE }),
  priced: date({ said: 'Day of the price.', need: 'must', absent: LINE }),
  'lead-time': special<number>(
    (value) => {
      const read = typeof value === 'string' ? /^(\d{1,3}) (day|days|week|weeks)$/.exec(value.trim()) : null
      if (read !== null) return { ok: true, value: Number(read[1]) * (read[2]!.startsWith('week') ? 7 : 1) }
      const problem = {
        code: 'stock/lead-time',
        found: String(value),
        wanted: 'days or weeks',
        mend: 'Write for example “6 weeks”.',
      }
      return { ok: false, problems: [problem] }
    },
    { type: 'string', unit: 'days, weeks', range: '0 to 999', examples: ['6 weeks'] },
    { said: 'From order to the gate.', need: 'must', absent: LINE },
  ),
  drawings: texts({ said: 'Its drawings: files or numbers.', need: 'must', absent: LINE }),
  choices,
  uses: z.array(use).meta(group('Modules it is made of.', 'must', LINE)),
  note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
})

/** A house model: pinned choices with what they were drawn, priced and made of. */
export interface Model {
  readonly id: string
  readonly name: string
  readonly revision: string
  readonly invented: boolean
  readonly rules: RuleSetId
  readonly price: { readonly amount: number; readonly currency: string; readonly date: string }
  readonly leadDays: number
  readonly drawings: readonly string[]
  readonly uses: readonly { readonly module: Module; readonly count: number; readonly drawnWith: string }[]
  /** What one is, once built as pinned: the same facts a box in the yard has. */
  readonly built: BuiltBox
  readonly body: BuiltBody
  /** As its sheet has it. */
  readonly sheet: ModelSheet
}

type ModelSheet = z.output<typeof modelSchema>

/** Reads a model sheet; its modules are those of the shop. Every problem at once. */
export function readModel(text: string, modules: readonly Module[]): Result<Model> {
  const read = readStockSheet('model', modelSchema, text)
  if (!read.ok) return read
  const row = read.value
  const problems: Problem[] = []
  const uses = row.uses.flatMap((u, i) => {
    const module = modules.find((m) => m.id === u.module)
    if (module !== undefined) return [{ module, count: u.count ?? 1, drawnWith: u.revision }]
    problems.push({
      ...{ code: 'stock/module-unknown', path: `uses[${i}].module`, found: `“${u.module}”`, wanted: 'a module of the shop' },
      mend: `Name one of ${modules.map((m) => m.id).join(', ') || 'none'}, or add its sheet under modules in shop.yaml.`,
    })
    return []
  })
  const boards = uses.filter((u) => u.module.kind === 'board')
  if (problems.length === 0 && (boards.length !== 1 || boards[0]!.count !== 1))
    problems.push({
      ...{ code: 'stock/one-board', path: 'uses', found: `${boards.reduce((n, b) => n + b.count, 0)} boards` },
      ...{ wanted: 'one board', mend: 'A model is one box with one main panel: name one module of the kind board.' },
    })
  if (problems.length > 0) return { ok: false, problems }
  const { id, name, revision, rules, drawings } = row
  return {
    ok: true,
    value: {
      ...{ id, name, revision, rules, drawings, uses, invented: row.invented ?? false, leadDays: row['lead-time'] },
      price: { amount: row.price.amount, currency: row.price.currency, date: row.priced },
      ...asBuilt(row, uses),
      sheet: row,
    },
  }
}

/** The model made of this module instead of the one of the same name. */
export function withModule(model: Model, module: Module): Model {
  const uses = model.uses.map((u) => (u.module.id === module.id ? { ...u, module } : u))
  return { ...model, uses, ...asBuilt(model.sheet, uses) }
}

/** Money of its modules, where all of them are in one currency; null where they are not. */
export function modulesMoney(model: Model): { readonly amount: number; readonly currency: string } | null {
  const currencies = new Set(model.uses.map((u) => u.module.price.currency))
  const [currency] = currencies
  if (currency === undefined || currencies.size > 1) return null
  const cents = model.uses.reduce((sum, u) => sum + Math.round(100 * u.count * u.module.price.amount), 0)
  return { amount: cents / 100, currency }
}

const least = (all: readonly (number | null)[]): number | null => {
  const told = all.filter((one) => one !== null)
  return told.length === 0 ? null : Math.min(...told)
}
const negated = (n: number | null): number | null => (n === null ? null : -n)

function asBuilt(row: ModelSheet, uses: Model['uses']): Pick<Model, 'built' | 'body'> {
  const board = uses.find((u) => u.module.board !== null)!.module.board!
  const { choices: c } = row
  const modules = uses.map((u) => u.module)
  const fitOutKg = uses.reduce((sum, u) => sum + u.count * u.module.massKg, c['other-mass'])
  const built = builtOf({
    'rules-when-built': row.rules,
    system: board.system,
    service: board.serviceA,
    interrupting: board.interruptingKA * 1000,
    ways: board.ways,
    circuits: c.circuits,
    ...(c.cords === undefined ? {} : { cords: c.cords }),
    'neutral-bond': c['neutral-bond'],
    approval: 'none before it is built',
  })!
  return {
    // The coldest that every one of them bears; a full test is done before it leaves.
    built: { ...built, outletDeviceMinC: negated(least(modules.map((m) => negated(m.airMinC)))), lastFullTestMonthsAgo: 0 },
    body: {
      ...{ lengthFt: c.length / M_PER_FT, heightKind: c.height, tareKg: c.tare, fitOutKg, weighedKg: null, transportPlate: null },
      vents: ventWords(uses),
      paint: c.paint,
      insulation: c.insulation,
      ...(c.heater === undefined ? {} : { heater: c.heater }),
      lowestExitM: least(modules.map((m) => m.exitHeightM)),
      setDown: null,
      airMaxC: least(modules.map((m) => m.airMaxC)),
    },
  }
}

/** Words of its vents as those of a box that stands: how many low and high, and the free area of each, as measured where it was. */
function ventWords(uses: Model['uses']): string | null {
  const vents = uses.filter((u) => u.module.kind === 'vent')
  if (vents.length === 0) return null
  const words = vents.map(({ count: many, module: { name, freeAreaM2 } }) => {
    const level = /\b(low|high)\b/i.exec(name)?.[1]?.toLowerCase()
    if (level === undefined || freeAreaM2 === null) return `${many} × ${name}`
    return `${many} ${level}, ${Number((freeAreaM2 * 1e4).toPrecision(6))} cm2 free each`
  })
  return words.join('; ')
}

/** Mass of a model: its bare container, its modules, and what else is built in. */
export const modelMassKg = (model: Model): number => (model.body.tareKg ?? 0) + (model.body.fitOutKg ?? 0)
