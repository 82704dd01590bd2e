import {
  type Finding,
  formatNumber,
  formatQuantity,
  type Judgement,
  type Mend,
  type Put,
  put,
  type Source,
  type Step,
  source,
  step,
  type Verdict,
  type Working,
  weakest,
} from '../../kernel/index.ts'

export interface Noted {
  readonly finding: Finding
  readonly working: Working
}

interface Said {
  readonly code: `air/${string}`
  readonly subject: string
  readonly verdict: Verdict
  readonly basis: Finding['basis']
  readonly said: string
  /** What the working is called. */
  readonly title: string
  readonly steps: readonly Step[]
  readonly crossCheck?: readonly Step[] | undefined
  readonly notes?: readonly string[] | undefined
  readonly judged?: Judged | undefined
  readonly assumed: readonly string[]
  readonly mends?: readonly Mend[] | undefined
  readonly decides?: string | undefined
  readonly caution?: string | undefined
}

/** Demand against limit, in the words a person reads. */
export interface Judged {
  readonly demand: Put
  readonly relation: Judgement['relation']
  readonly limit: Put
  readonly tight: string
  readonly rests: Source
}

/** A finding of this question with its working, the weakest provenance of its lines, and “confirm” where a row from memory is among them. */
export function noted(of: Said): Noted {
  const { judged } = of
  const provenance = weakest(
    ...of.steps.map((s) => s.rests.provenance),
    ...(judged === undefined ? [] : [judged.rests.provenance]),
  )
  const id = `${of.subject}/${of.code.replace('/', '-')}`
  const mends = of.verdict === 'holds' ? [] : (of.mends ?? [])
  return {
    finding: {
      ...{ code: of.code, question: 'air', subject: of.subject, verdict: of.verdict, basis: of.basis, said: of.said },
      ...(judged === undefined ? {} : { demand: judged.demand, limit: judged.limit }),
      provenance,
      ...(provenance === 'memory' ? { confirm: true } : {}),
      ...{ assumed: of.assumed, workings: [id], mends },
      ...(of.decides === undefined ? {} : { decides: of.decides }),
      ...(of.caution === undefined ? {} : { caution: of.caution }),
    },
    working: {
      ...{ id, title: of.title, steps: of.steps },
      ...(judged === undefined ? {} : { judgement: judged }),
      ...(of.crossCheck === undefined || of.crossCheck.length === 0 ? {} : { crossCheck: of.crossCheck }),
      ...(of.notes === undefined || of.notes.length === 0 ? {} : { notes: of.notes }),
    },
  }
}

type In = readonly (readonly [symbol: string, value: number | string, unit: string])[]

/** One line of a derivation. */
export const line = (
  symbol: string,
  expression: string,
  values: In,
  result: number | string,
  unit: string,
  rests: Source = COMPUTED,
): Step =>
  step(
    symbol,
    expression,
    values.map(([s, v, u]): Put => put(s, v, u)),
    result,
    unit,
    rests,
  )

/** What the hourly run itself rests on. */
export const RUN = source('the hourly run of this box: heat, air and water balanced in every step', 'computed')
export const COMPUTED = source('heat and moisture physics', 'computed')

/** Numbers as they stand in a sentence. */
export const degrees = (airC: number): string => formatQuantity(Math.round(airC * 10) / 10, '°C', { digits: 4, shortest: true })
export const grams = (gPerM2: number): string => `${whole(gPerM2)} g/m²`
export const litres = (kg: number): string =>
  `${formatNumber(kg < 10 ? Math.round(kg * 10) / 10 : Math.round(kg), { shortest: true })} l`
/** Tenths, as short as they are. */
export const tenths = (value: number): string => formatNumber(Math.round(value * 10) / 10, { digits: 5, shortest: true })
/** As short as three digits are. */
export const threeDigits = (value: number): string => formatNumber(value, { digits: 3, shortest: true })
export const hours = (countH: number): string => `${whole(countH)} h`
export const whole = (value: number): string => formatNumber(Math.round(value), { digits: 6 })
/** “12” where both ends print alike, else “3 to 12”, with its unit behind it. */
export function between(one: number, other: number, words: (value: number) => string): string {
  const [low, high] = one <= other ? [one, other] : [other, one]
  const [from, to] = [words(low), words(high)]
  if (from === to) return to
  const unit = /[\s\u202f]\S+$/.exec(to)?.[0] ?? ''
  return `${unit !== '' && from.endsWith(unit) ? from.slice(0, -unit.length) : from} to ${to}`
}

/** Roles that decide what is only computed here. */
export const WHO = {
  maker: 'the maker of the part, and whoever inspects it',
  electrician: 'the licensed electrician on site',
  shop: 'the shop, with whoever runs the box',
} as const

export const CAUTION = {
  wet: 'Water near live parts kills: isolate, lock and prove dead before you open, wipe or dry anything.',
  hot: 'Hot enclosures burn and their breakers trip early: isolate, lock and prove dead before you open one.',
  cold: 'Below its limit a breaker may not trip in time: warm the gear before it is loaded.',
  roof: 'Frost and water on a roof sheet fall without warning: keep from under it, and off the roof itself.',
  heater:
    'A heater in a box that nobody watches is a fire risk: guarded, fixed, with its own cut-out; nothing that burns beside it.',
  mould: 'Mould harms the lungs: wear a mask, wet it before you wipe it, air the box first.',
} as const
