import { z } from 'zod'
import {
  type Dimension,
  examplesOf,
  type Problem,
  parseMoney,
  parseQuantity,
  parseSeries,
  patternOf,
  type QuestionId,
  type Result,
  unitsOf,
} from '../kernel/index.ts'
import { nearest, problem, shown } from './problems.ts'
import { SYSTEMS, systemNamed } from './systems.ts'

/**
 * What happens when a field is absent. `must`: the questions that need it answer `unknown`; `bounded`: judged at both ends of a
 * sourced range; `assumed`: a default is taken, recorded and shown.
 */
export type Need = 'must' | 'bounded' | 'assumed'

/** What the schema says of a field beside its form. */
export interface About {
  readonly said: string
  readonly need: Need
  /** What is taken, or who answers `unknown`, when it is absent. */
  readonly absent: string
  /** Questions that read it and are not built yet; such a field is kept and listed as unused. */
  readonly later?: readonly QuestionId[]
  /** Questions of the box that read it now: it is not unused, whoever else is still to come. */
  readonly reads?: readonly QuestionId[]
}

/** Questions beside those of power that are built: what they need is carried into the job. */
const BOX: readonly QuestionId[] = ['fit', 'skin', 'haul', 'dates', 'air']

/** Marks of a field that questions of the box read now, and others later. */
export function readBy(...all: readonly QuestionId[]): Pick<About, 'later' | 'reads'> {
  const later = all.filter((q) => !BOX.includes(q))
  const reads = all.filter((q) => BOX.includes(q))
  return { ...(reads.length === 0 ? {} : { reads }), ...(later.length === 0 ? {} : { later }) }
}

interface Form {
  readonly type: string | readonly string[]
  readonly unit: string
  readonly range: string
  readonly examples: readonly (string | number | boolean | readonly string[])[]
  readonly pattern?: string
  readonly enum?: readonly string[]
}

export type Read<T> = (value: unknown) => Result<T>

/** A field that reads one value by its own rule; every trouble is a Problem from the catalogue. */
function leaf<T>(read: Read<T>, form: Form, about: About) {
  const schema = z.unknown().transform((value, context): T => {
    const result = value === undefined || value === null ? fail(problem('job/missing', about.said)) : read(value)
    if (result.ok) return result.value
    for (const p of result.problems)
      context.issues.push({ code: 'custom', input: value, params: { problem: p }, message: p.code })
    return z.NEVER
  })
  return schema.meta(metaOf(form, about))
}

export const metaOf = (form: Form, about: About): Record<string, unknown> => ({
  description: about.said,
  ...(form.type === '' ? {} : { type: form.type }),
  ...(form.pattern === undefined ? {} : { pattern: form.pattern }),
  ...(form.enum === undefined ? {} : { enum: form.enum }),
  ...(form.examples.length === 0 ? {} : { examples: form.examples }),
  'x-unit': form.unit,
  'x-range': form.range,
  'x-need': about.need,
  'x-absent': about.absent,
  ...marksOf(about),
})

const marksOf = ({ later, reads }: Pick<About, 'later' | 'reads'>): Record<string, unknown> => ({
  ...(reads === undefined ? {} : { 'x-read-by': reads }),
  ...(later === undefined ? {} : { 'x-later': later }),
})

/** Description of a group or list, in the same form as of a field. */
export const group = (
  said: string,
  need: Need,
  absent: string,
  later: readonly QuestionId[] | Pick<About, 'later' | 'reads'> = {},
): Record<string, unknown> => ({
  description: said,
  'x-unit': 'none',
  'x-range': 'keys as below',
  'x-need': need,
  'x-absent': absent,
  ...marksOf('length' in later ? { later } : later),
})

export const fail = (...all: Problem[]): Result<never> => ({ ok: false, problems: all })
export const good = <T>(value: T): Result<T> => ({ ok: true, value })

/** True for a number YAML made out of a bare figure; finite or not. */
const isNumber = (value: unknown): value is number => typeof value === 'number'

function wrongKind(value: unknown, wanted: string, example: string): Result<never> {
  if (isNumber(value) && !Number.isFinite(value)) return fail(problem('job/not-finite', value))
  return fail(problem('job/wrong-kind', value, wanted, `Write for example ${example}.`))
}

export interface Range {
  readonly min: number
  readonly max: number
  /** As a person reads it: `0 to 2000 m`. */
  readonly said: string
}

export const range = (min: number, max: number, said: string): Range => ({ min, max, said })

function readQuantity(dimension: Dimension, limits: Range): Read<number> {
  const example = `“${examplesOf(dimension)[0]}”`
  return (value) => {
    if (isNumber(value) && Number.isFinite(value)) {
      const bare = parseQuantity(String(value), dimension)
      const words = bare.ok ? null : bare.problems[0]
      return fail(
        problem('job/unit-missing', value, words?.wanted ?? `a ${dimension}`, words?.mend ?? `Write for example ${example}.`),
      )
    }
    if (typeof value !== 'string') return wrongKind(value, `${dimension}, a number with its unit`, example)
    const read = parseQuantity(value, dimension)
    if (!read.ok) return read
    const si = read.value.value
    if (si < limits.min || si > limits.max) return fail(problem('job/out-of-range', shown(value), limits.said))
    return good(si)
  }
}

const quantityForm = (dimension: Dimension, limits: Range): Form => ({
  type: 'string',
  unit: unitsOf(dimension).join(', '),
  range: limits.said,
  examples: examplesOf(dimension),
  pattern: patternOf(dimension),
})

/** One quantity with its unit; read in the unit of its dimension. */
export const quantity = (dimension: Dimension, limits: Range, about: About) =>
  leaf(readQuantity(dimension, limits), quantityForm(dimension, limits), about)

/** One quantity for all, or a list: `[12 m, 18 m]`. */
export function quantities(dimension: Dimension, limits: Range, about: About) {
  const one = readQuantity(dimension, limits)
  const read: Read<readonly number[]> = (value) => {
    if (!Array.isArray(value)) {
      const single = one(value)
      return single.ok ? good([single.value]) : single
    }
    if (value.length === 0) return wrongKind(value, 'at least one value', `“${examplesOf(dimension)[0]}”`)
    return each(value, one)
  }
  const form = quantityForm(dimension, limits)
  return leaf(
    read,
    {
      ...form,
      type: ['string', 'array'],
      examples: [...form.examples.slice(0, 1), form.examples.slice(0, 2) as readonly string[]],
    },
    about,
  )
}

function each<T>(values: readonly unknown[], read: Read<T>): Result<readonly T[]> {
  const out: T[] = []
  const bad: Problem[] = []
  values.forEach((value, index) => {
    const one = read(value)
    if (one.ok) out.push(one.value)
    else bad.push(...one.problems.map((p) => ({ ...p, path: `[${index}]` })))
  })
  return bad.length > 0 ? fail(...bad) : good(out)
}

/** Twelve months, January to December, one unit behind them. */
export function months(dimension: Dimension, limits: Range, about: About) {
  const read: Read<readonly number[]> = (value) => {
    const wanted = `twelve numbers, January to December, and one unit (${unitsOf(dimension).join(', ')})`
    const example = `“-9.5 -8.8 -5.6 -1.2 4.1 9 13.4 12.8 8.1 2.2 -5.1 -9.6 ${unitsOf(dimension)[0]}”`
    if (typeof value !== 'string') return wrongKind(value, wanted, example)
    const series = parseSeries(value, dimension)
    if (!series.ok) return series
    if (series.value.length !== 12) return fail(problem('job/count-mismatch', `${series.value.length} numbers`, wanted))
    const out = series.value.find((v) => v < limits.min || v > limits.max)
    return out === undefined ? series : fail(problem('job/out-of-range', shown(value), limits.said))
  }
  return leaf(
    read,
    {
      type: 'string',
      unit: `${unitsOf(dimension).join(', ')}, written once`,
      range: `twelve numbers, each ${limits.said}`,
      examples: [],
    },
    about,
  )
}

/** A fraction, bare (`0.95`) or in per cent (`95 %`). */
export function fraction(limits: Range, about: About) {
  const percent = readQuantity('share', limits)
  const read: Read<number> = (value) => {
    if (!isNumber(value)) return percent(value)
    if (!Number.isFinite(value)) return fail(problem('job/not-finite', value))
    return value < limits.min || value > limits.max ? fail(problem('job/out-of-range', shown(value), limits.said)) : good(value)
  }
  return leaf(read, { type: ['number', 'string'], unit: '1 or %', range: limits.said, examples: [0.95, '95 %'] }, about)
}

/** A plain number that has no unit. */
export function plain(limits: Range, whole: boolean, about: About) {
  const read: Read<number> = (value) => {
    if (!isNumber(value) || !Number.isFinite(value))
      return wrongKind(value, whole ? 'a whole number' : 'a number', whole ? '“4”' : '“1.5”')
    if (whole && !Number.isInteger(value)) return wrongKind(value, 'a whole number', '“4”')
    return value < limits.min || value > limits.max ? fail(problem('job/out-of-range', shown(value), limits.said)) : good(value)
  }
  return leaf(read, { type: whole ? 'integer' : 'number', unit: 'none', range: limits.said, examples: [] }, about)
}

export const count = (limits: Range, about: About) => plain(limits, true, about)

/** Plain text. A figure or `true` is refused: in quotes it is text. */
export function text(about: About, longest = 2000) {
  const read: Read<string> = (value) => {
    if (typeof value !== 'string')
      return fail(
        problem('job/wrong-kind', value, 'text', `Put it in quotes if it is meant as text: "${String(value).slice(0, 20)}".`),
      )
    if (value.trim() === '')
      return fail(problem('job/wrong-kind', value, 'text that is not empty', 'Write it, or take the line away.'))
    return value.length > longest
      ? fail(problem('job/out-of-range', `${value.length} letters`, `at most ${longest} letters`))
      : good(value)
  }
  return leaf(read, { type: 'string', unit: 'none', range: `1 to ${longest} letters`, examples: [] }, about)
}

export const TAG = /^[A-Za-z0-9][A-Za-z0-9.-]{0,39}$/

/** A short name without blanks that other places of the document point at. */
export function tag(about: About) {
  const read: Read<string> = (value) => {
    if (typeof value === 'string' && TAG.test(value)) return good(value)
    const mend = isNumber(value) ? `"${value}" in quotes` : '“G1C”'
    return fail(problem('job/wrong-kind', value, 'a tag: letters, digits, “-” and “.”, at most 40', `Write for example ${mend}.`))
  }
  return leaf(
    read,
    { type: 'string', unit: 'none', range: 'letters, digits, “-”, “.”; at most 40', examples: ['G1C'], pattern: TAG.source },
    about,
  )
}

/** One of a closed list of words. */
export function choice<const W extends string>(words: readonly W[], about: About) {
  const read: Read<W> = (value) => {
    const found = typeof value === 'string' ? words.find((w) => w === value.trim()) : undefined
    if (found !== undefined) return good(found)
    return fail(problem('job/not-a-choice', shown(value), typeof value === 'string' ? nearest(value, words) : null, words))
  }
  return leaf(read, { type: 'string', unit: 'none', range: words.join(' | '), examples: [], enum: words }, about)
}

/** `yes`, `no`, `true`, `false`: the same under YAML 1.1 and 1.2. */
export function yesNo(about: About) {
  const words: Record<string, boolean> = { yes: true, no: false }
  const read: Read<boolean> = (value) => {
    if (typeof value === 'boolean') return good(value)
    const found = typeof value === 'string' ? words[value] : undefined
    return found === undefined ? fail(problem('job/not-a-choice', shown(value), null, ['yes', 'no'])) : good(found)
  }
  return leaf(read, { type: ['boolean', 'string'], unit: 'none', range: 'yes | no', examples: ['yes', 'no'] }, about)
}

export interface MoneyRead {
  readonly amount: number
  readonly currency: string
}

/** Money, or with `per` a price. */
export function money(per: string | null, about: About) {
  const example = per === null ? '“18500 USD”' : `“92 USD per ${per}”`
  const read: Read<MoneyRead> = (value) => {
    if (typeof value !== 'string') return wrongKind(value, 'an amount with its currency', example)
    const read = parseMoney(value, per)
    if (!read.ok) return read
    return read.value.amount < 0 || read.value.amount > 1e12
      ? fail(problem('job/out-of-range', shown(value), '0 or more'))
      : good(read.value)
  }
  return leaf(
    read,
    {
      type: 'string',
      unit: per === null ? 'currency' : `currency per ${per}`,
      range: '0 or more',
      examples: [example.slice(1, -1)],
    },
    about,
  )
}

export function system(about: About) {
  const titles = SYSTEMS.map((s) => s.title)
  const read: Read<string> = (value) => {
    const found = typeof value === 'string' ? systemNamed(value) : null
    if (found) return good(found.id)
    return fail(
      problem(
        'job/system-unknown',
        typeof value === 'string' ? value : shown(value),
        typeof value === 'string' ? nearest(value, titles) : null,
        titles,
      ),
    )
  }
  return leaf(read, { type: 'string', unit: 'none', range: titles.join(' | '), examples: [titles[0] as string] }, about)
}

/** A list of plain texts. */
export function texts(about: About) {
  const read: Read<readonly string[]> = (value) => {
    if (!Array.isArray(value)) return wrongKind(value, 'a list of texts', '“- no trench after 30 September”')
    return each(value, (one) =>
      typeof one === 'string' && one.trim() !== ''
        ? good(one)
        : fail(
            problem(
              'job/wrong-kind',
              one,
              'text',
              one !== null && typeof one === 'object'
                ? 'A colon inside the text makes it a key: put the text in quotes.'
                : 'Put it in quotes.',
            ),
          ),
    )
  }
  return leaf(read, { type: 'array', unit: 'none', range: 'any number of texts', examples: [] }, about)
}

/** A value read by a rule of its own; for the few fields with two forms. */
export const special = <T>(read: Read<T>, form: Form, about: About) => leaf(read, form, about)

/** “no”, or a group of keys: read as `'none'` or the group. Its keys are put into the JSON Schema by `jobJsonSchema`. */
export function groupOrNo<G extends z.ZodType>(inner: G, about: About, mend: string) {
  const schema = z.unknown().transform((value, context): 'none' | z.output<G> => {
    if (value === false || value === 'no') return 'none'
    if (value === null || typeof value !== 'object') {
      const wrong = problem('job/wrong-kind', value, '“no”, or a group of keys', mend)
      context.issues.push({ code: 'custom', input: value, message: wrong.code, params: { problem: wrong } })
      return z.NEVER
    }
    const read = inner.safeParse(value)
    if (read.success) return read.data
    for (const issue of read.error.issues) context.issues.push({ ...issue, input: value } as never)
    return z.NEVER
  })
  return schema.meta({ ...group(about.said, about.need, about.absent, about), type: ['string', 'boolean', 'object'] })
}
