import { ok, type Problem, parseQuantity, type Result } from '../kernel/index.ts'
import { problem } from './problems.ts'
import { isDay } from './times.ts'
import type { LoadKind, RuleSetId, SystemId } from './types.ts'

/** Answers of the call, as given; those that have a default may be left out. */
export interface CallAnswers {
  /** Town, region and country; decides the rule set. Has no default. */
  readonly where: string
  /** `6 groomer heater 1500 W 120 V; 1 compressor 3 hp 240 V`. Has no default. */
  readonly machines: string
  readonly when?: string
  readonly far?: string
  readonly power?: string
  readonly stay?: string
  readonly ground?: string
  readonly forbidden?: string
  readonly by?: string
  readonly buy?: string
  readonly stands?: string
}

/** Defaults of the call. Provenance: common practice; the shop may replace them. */
export const CALL_DEFAULTS = {
  when: '07:00, Mon-Sat, winter',
  far: '30 m',
  power: 'none known',
  stay: 'one season, one move, +25 %',
  ground: 'firm gravel, tilt-bed, no lines',
  forbidden: 'nothing',
  buy: 'both priced',
  stands: 'nothing',
} as const

export interface CalledMachine {
  readonly count: number
  readonly what: string
  readonly power: string | null
  readonly voltage: string | null
  readonly current: string | null
  readonly phases: 1 | 3
  readonly shaft: boolean
  readonly kind: LoadKind
  /** The words did not say what kind it is. */
  readonly kindGuessed: boolean
}

export interface CalledSupply {
  readonly kind: 'utility' | 'generator' | 'neighbour'
  readonly what: string
  readonly distance: string | null
}

export interface Call {
  readonly set: RuleSetId
  readonly where: string
  readonly machines: readonly CalledMachine[]
  readonly ready: string
  readonly everyDay: boolean
  readonly winter: boolean
  readonly farM: number
  readonly supplies: readonly CalledSupply[]
  readonly system: SystemId | null
  readonly stay: string
  readonly moves: string
  readonly growthPct: number
  readonly by: string | null
  /** Answers that were not given: their defaults stand. */
  readonly defaulted: ReadonlySet<keyof CallAnswers>
}

/** Reads the answers; everything that cannot be understood comes back at once. */
export function readCall(answers: CallAnswers): Result<Call> {
  const problems: Problem[] = []
  const defaulted = new Set(
    (Object.keys(CALL_DEFAULTS) as (keyof typeof CALL_DEFAULTS)[]).filter((key) => (answers[key] ?? '').trim() === ''),
  )
  const said = (key: keyof typeof CALL_DEFAULTS): string =>
    defaulted.has(key) ? CALL_DEFAULTS[key] : (answers[key] as string).trim()
  const wrong = (path: keyof CallAnswers, wanted: string, mend: string) =>
    problems.push({ ...problem('job/wrong-kind', answers[path] ?? '', wanted, mend), path })
  const set = setOf(answers.where)
  if (set === null)
    wrong(
      'where',
      'a town with its country at the end',
      'Write for example “Northgate, AK, US”, “Whitehorse, YT, Canada” or “Leeds, GB”.',
    )
  const machines = answers.machines
    .split(/[;\n]/)
    .map((m) => m.trim())
    .filter((m) => m !== '')
    .map(machineOf)
  if (machines.length === 0)
    wrong('machines', 'at least one machine', 'Write for example “6 groomer heater 1500 W 120 V; 1 compressor 3 hp 240 V”.')
  const clock = /\b([01]?\d|2[0-3]):[0-5]\d\b/.exec(said('when'))?.[0]
  if (clock === undefined) wrong('when', 'a time of day', 'Write for example “06:00, every day, winter”.')
  const far = parseQuantity(said('far'), 'length')
  if (!far.ok) problems.push(...far.problems.map((p) => ({ ...p, path: 'far' })))
  const stay = stayOf(said('stay'))
  if (stay === null) wrong('stay', 'how long', 'Write for example “18 months, no move, +50 %” or “one season”.')
  const by = answers.by?.trim() ?? ''
  if (by !== '' && !isDay(by)) problems.push({ ...problem('job/date', `“${by}”`), path: 'by' })
  if (problems.length > 0 || set === null || clock === undefined || !far.ok || stay === null) return { ok: false, problems }
  const power = said('power')
  return ok({
    set,
    where: answers.where.trim(),
    machines,
    ready: clock.padStart(5, '0'),
    everyDay: /every ?day|daily|all days/i.test(said('when')),
    winter: /winter/i.test(said('when')),
    farM: far.value.value,
    supplies: power.split(';').flatMap(supplyOf),
    system: systemOf(power, set),
    stay,
    moves: /no move/i.test(said('stay'))
      ? 'none'
      : (/[^,]*\bmoves?\b[^,]*/i.exec(said('stay'))?.[0].trim() ?? 'one move: to the site'),
    growthPct: Number(/\+\s*(\d{1,3})\s*%/.exec(said('stay'))?.[1] ?? 25),
    by: by === '' ? null : by,
    defaulted,
  })
}

/** By the country at the end. “Fresno, CA” is two places: null, so that it is asked. */
function setOf(where: string): RuleSetId | null {
  const parts = where
    .split(',')
    .map((p) => p.trim())
    .filter((p) => p !== '')
  const last = parts.at(-1)?.toLowerCase() ?? ''
  if (parts.length < 2) return null
  if (['us', 'usa', 'united states', 'united states of america'].includes(last)) return 'us'
  if (last === 'canada' || (last === 'ca' && parts.length >= 3)) return 'ca'
  return last === 'ca' || US_STATES.has(last) || PROVINCES.has(last) ? null : 'intl'
}

const US_STATES = new Set(
  'al ak az ar co ct de fl ga hi id il in ia ks ky la me md ma mi mn ms mo mt ne nv nh nj nm ny nc nd oh ok or pa ri sc sd tn tx ut vt va wa wv wi wy'.split(
    ' ',
  ),
)
const PROVINCES = new Set('ab bc mb nb nl ns nt nu on pe qc sk yt'.split(' '))

const KIND_WORDS: readonly (readonly [LoadKind, RegExp])[] = [
  ['charger', /charger|maintainer|charging/i],
  ['heater', /heater|heating|element|blanket|convector|heat trace/i],
  ['welder', /weld/i],
  ['motor', /pump|compressor|motor|blower|fan|saw|hoist|\bhp\b/i],
  ['electronic', /light|lamp|radio|computer|camera/i],
]

function machineOf(text: string): CalledMachine {
  const count = /^(\d{1,3})\s*[x×]?\s+(?=\D)/.exec(text)
  const rest = count ? text.slice(count[0].length) : text
  const take = (pattern: RegExp): string | null => pattern.exec(rest)?.[0].trim() ?? null
  const power = take(/(?:\d+ )?\d+(?:[./]\d+)?\s*(?:kW|W|hp)\b/)
  const voltage = take(/\d+(?:\.\d+)?\s*k?V\b/)
  const current = take(/\d+(?:\.\d+)?\s*A\b/)
  const three = /\b(3|three)[- ]?phase/i
  const what = [power, voltage, current]
    .reduce<string>((w, part) => (part === null ? w : w.replace(part, ' ')), rest.replace(three, ' '))
    .replace(/\s+/g, ' ')
    .trim()
  const kind = KIND_WORDS.find(([, words]) => words.test(rest))?.[0]
  return {
    count: Math.max(1, Number(count?.[1] ?? 1)),
    what: what === '' ? text : what,
    power,
    voltage,
    current,
    phases: three.test(rest) ? 3 : 1,
    shaft: /hp$/.test(power ?? ''),
    kind: kind ?? 'mixed',
    kindGuessed: kind === undefined,
  }
}

function supplyOf(text: string): readonly CalledSupply[] {
  const what = text.trim()
  const kind = /neighbou?r/i.test(what)
    ? 'neighbour'
    : /generator|\bset\b/i.test(what)
      ? 'generator'
      : /pole|transformer|utility|network|line|service|meter/i.test(what)
        ? 'utility'
        : null
  if (kind === null) return []
  const distance = /\d+(?:\.\d+)?\s*(?:km|m|ft)\b/.exec(what)?.[0] ?? null
  return [{ kind, what, distance }]
}

const SYSTEM_VOLTS: readonly (readonly [RegExp, SystemId])[] = [
  [/120\s*\/\s*240/, 'split 120/240'],
  [/120\s*\/\s*208|208\s*\/\s*120/, 'wye 208/120'],
  [/277\s*\/\s*480|480\s*\/\s*277/, 'wye 480/277'],
  [/347\s*\/\s*600|600\s*\/\s*347/, 'wye 600/347'],
  [/230\s*\/\s*400|400\s*\/\s*230/, 'TN/TT 400/230'],
]

function systemOf(text: string, set: RuleSetId): SystemId | null {
  const found = SYSTEM_VOLTS.find(([volts]) => volts.test(text))?.[1]
  return found ?? (set === 'intl' && /\b230\s*V/.test(text) ? 'single 230' : null)
}

function stayOf(text: string): string | null {
  const told = /(\d{1,3}(?:\.\d+)?)\s*(months?|years?|weeks?|days?)/i.exec(text)
  if (told) return `${told[1]} ${(told[2] as string).toLowerCase()}`
  return /season/i.test(text) ? '5 months' : null
}
