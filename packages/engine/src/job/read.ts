import { daysBetween, type Problem, parseSize, plusDays, type Result } from '../kernel/index.ts'
import { builtOf } from './built-box.ts'
import { climateOf } from './climate-facts.ts'
import { datesOf } from './dates.ts'
import type { Opened } from './document.ts'
import { type Notes, notes, POWER } from './notes.ts'
import { offersOf, ownTransformersOf, tariffOf } from './offers.ts'
import { boxesOf, phasesOf, siteOf } from './place.ts'
import { plugsOf, withHosts } from './plugs.ts'
import { JOB_VERSION, nearest, problem, shown } from './problems.ts'
import { referenceProblems } from './references.ts'
import { document, type JobDocument } from './schema/job.ts'
import { floodGroup } from './schema/site.ts'
import { pocketsGroup } from './schema/surveys.ts'
import { readSheet } from './sheet.ts'
import { surveysOf } from './survey.ts'
import { systemById, USUAL_SYSTEM } from './systems.ts'
import type { Job, MoneyTold, Pin } from './types.ts'
import { unusedKeys } from './unused.ts'
import { builtBodyOf, yardOf } from './yard.ts'

export interface ReadOptions {
  /** File as the person named it; put into every problem. */
  readonly file?: string
}

/**
 * Reads a job document. Everything that is wrong with it comes back at once, each with line, what was found, what is wanted and a mend;
 * what holds together in form but not in sense is left to `consistencyFindings`. Never throws on any input.
 */
export function readJob(input: string | Uint8Array, options: ReadOptions = {}): Result<Job> {
  const read = readDocument(input)
  if (read.ok) return { ok: true, value: jobOf(read.value.document, read.value.raw) }
  const file = options.file
  return file === undefined ? read : { ok: false, problems: read.problems.map((p) => ({ ...p, file })) }
}

export interface DocumentRead {
  readonly document: JobDocument
  readonly raw: unknown
}

/** As `readJob`, up to the document in the units of the engine: no default is taken yet. */
export function readDocument(input: string | Uint8Array): Result<DocumentRead> {
  const read = readSheet(input, { schema: document, stranger: strangerProblem, references: referenceProblems, groups: GROUPS })
  return read.ok ? { ok: true, value: { document: read.value.sheet, raw: read.value.raw } } : read
}

/** Groups that stand where a word may stand too: zod sees only the word's side of them. */
const GROUPS = { pockets: pocketsGroup, flood: floodGroup }

/** A line out of a spreadsheet: values with nothing between them but commas. */
const LIST = /^[^,;\s][^,;]*(?:[,;]\S[^,;]*){2,}/

/** Another program's file, or a later version's: then nothing else is looked at. */
function strangerProblem(doc: Opened): Problem | null {
  const raw = doc.raw
  if (typeof raw === 'string' && LIST.test(raw)) return { ...problem('job/list', raw), line: 1, column: 1 }
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw))
    return { ...problem('job/not-a-job', shown(raw)), line: 1, column: 1 }
  const keys = Object.keys(raw)
  if (!('plugstead' in raw)) {
    if (nearest('plugstead', keys) !== null) return null
    return {
      ...problem('job/not-a-job', keys.length === 0 ? 'no keys' : `keys such as “${keys[0]?.slice(0, 40)}”`),
      line: 1,
      column: 1,
    }
  }
  const version = (raw as { plugstead: unknown }).plugstead
  if (typeof version === 'number' && version > JOB_VERSION)
    return { ...problem('job/newer-version', String(version)), ...doc.placeOf(['plugstead']), path: 'plugstead' }
  return null
}

/** The job as the engine sees it: every row expanded, every default taken and recorded. */
function jobOf(doc: JobDocument, raw: unknown): Job {
  const note = notes()
  const set = doc.rules.set
  const facts = doc.facts
  const supply = facts?.supply
  const usual = systemById(USUAL_SYSTEM[set])
  const system =
    supply?.system ??
    note.or(
      undefined,
      USUAL_SYSTEM[set],
      'facts.supply.system',
      `supply is ${usual?.title}`,
      'usual for a small supply under this rule set: common practice',
    )
  const stayMonths =
    doc.needs?.stay ??
    note.or(undefined, 12, 'needs.stay', 'needed for 12 months', 'one season and one move, the call’s default: common practice')
  const phases = phasesOf(doc.phases ?? [], stayMonths)
  const boxes = boxesOf(doc.boxes ?? [], facts, note)
  const site = siteOf(facts, note)
  const rows = doc.needs?.machines ?? []
  if (rows.length === 0) note.lacks('needs.machines', 'job', 'No machine is written: there is nothing to feed.', POWER)
  const plugs = withHosts(
    plugsOf(
      rows,
      {
        phases,
        boxes: boxes.map((b) => b.id),
        seasonDays: doc.needs?.season?.days,
        designMinC: site.designMinC,
        lineLineV: systemById(system)?.lineLineV ?? 0,
      },
      note,
    ),
  )
  const offers = offersOf(supply, set, system, note)
  if (offers.length === 0) note.lacks('facts.supply.offers', 'job', 'No offer of supply is written.', ['supply', 'faults'])
  const currency = currencyOf(doc, note)
  const yard = yardOf(facts)
  const builtBody = builtBodyOf(facts?.built)
  return {
    title: doc.title ?? 'Untitled job',
    invented: doc.invented ?? false,
    rules: { set, edition: doc.rules.edition ?? null, overlays: doc.rules.overlays ?? [] },
    system,
    plugs,
    boxes,
    phases,
    offers,
    tariff: tariffOf(supply, set, currency, note),
    site,
    needs: needsOf(doc, stayMonths, supply?.frequency ?? (set === 'intl' ? 50 : 60), note),
    money: {
      currency,
      electricianPerHMoney: doc.needs?.money?.electrician?.amount ?? null,
      interestFrac: doc.needs?.money?.interest ?? null,
      told: moneyTold(doc),
    },
    built: builtOf(facts?.built),
    builtBody,
    surveys: surveysOf(facts?.surveys),
    yard,
    climate: climateOf(facts, doc.needs?.season),
    dates: datesOf(facts, doc.needs?.season),
    pins: Object.entries(doc.choices ?? {}).map(([path, pin]): Pin => ({ path, ...pin, value: pinValue(path, pin.value) })),
    assumed: [
      ...(doc.assumed ?? []).map((a) => ({
        path: a.path,
        said: `${a.path}: a default that was written in, told by nobody`,
        source: a.why,
      })),
      ...note.assumed,
    ],
    unused: unusedKeys(raw),
    missing: note.missing,
    ownTransformers: ownTransformersOf(supply, set, note),
  }
}

/** A conductor’s size under its one name, so that `12AWG` and `12 AWG` are one choice. */
export function pinValue(path: string, value: Pin['value']): Pin['value'] {
  const size = path.endsWith('.size') ? parseSize(String(value)) : null
  return size?.ok ? size.value : value
}

function needsOf(doc: JobDocument, stayMonths: number, frequency: number, note: Notes): Job['needs'] {
  const needs = doc.needs
  const order = needs?.['order-placed'] ?? null
  const by = needs?.['needed-by']
  const daysToNeed = by?.daysAfterOrder ?? (order !== null && by?.date ? daysBetween(order, by.date) : null)
  const neededBy =
    by === undefined ? null : (by.date ?? (order === null ? by.text : plusDays(order, by.daysAfterOrder as number)))
  return {
    growthFrac:
      needs?.growth ?? note.or(undefined, 0.25, 'needs.growth', 'growth of 25 %', 'trade custom, 20 to 25 %: common practice'),
    goal:
      needs?.goal ??
      note.or(
        undefined,
        'least cost over the stay' as const,
        'needs.goal',
        'least cost over the stay is sought',
        'the usual aim',
      ),
    stayMonths,
    orderDate: order,
    neededBy,
    ringBack: needs?.['ring-back'] ?? null,
    customer: needs?.customer ?? null,
    daysToNeed,
    manualAllOn:
      needs?.['manual-all-on'] ??
      note.or(
        undefined,
        true,
        'needs.manual-all-on',
        'someone can turn everything on at once',
        'people do it in a cold spell: common practice',
      ),
    forbidden: needs?.forbidden ?? [],
    ...(needs?.places === undefined
      ? {}
      : { bearingDeg: Object.fromEntries(Object.entries(needs.places).map(([name, at]) => [name, at.bearing])) }),
    frequencyHz: frequency < 55 ? 50 : 60,
  }
}

function moneyTold({ needs }: JobDocument): MoneyTold {
  const of = needs?.money
  const seconds = of?.['rent-period']
  return {
    welderPerHMoney: of?.welder?.amount ?? null,
    helperPerHMoney: of?.helper?.amount ?? null,
    overheadPerHMoney: of?.['shop-overhead']?.amount ?? null,
    marginFrac: of?.margin ?? null,
    usedBoxMoney: of?.['used-box']?.amount ?? null,
    newBoxMoney: of?.['new-box']?.amount ?? null,
    haulMoney: of?.haul?.amount ?? null,
    budgetMoney: of?.budget?.amount ?? null,
    rentPeriodDays: seconds === undefined ? null : seconds / DAY_S,
    rentWanted: of?.['rent-wanted'] ?? null,
    buyOrRent: needs?.['buy-or-rent'] ?? 'both',
    seasonDays: needs?.season?.days ?? null,
    winters: hoursOfWinters(needs?.season?.winters),
  }
}
const DAY_S = 86_400
const HOUR_S = 3600

const hoursOfWinters = (of: NonNullable<NonNullable<JobDocument['needs']>['season']>['winters']): MoneyTold['winters'] =>
  of === undefined ? null : { mildH: of.mild / HOUR_S, middleH: of.middle / HOUR_S, hardH: of.hard / HOUR_S }

/** The currency named, else that of the first figure; with no figure at all, none is guessed. */
function currencyOf(doc: JobDocument, note: Notes): string {
  const said = doc.needs?.money?.currency
  if (said !== undefined) return said
  const first = firstCurrency(doc.needs?.money) ?? firstCurrency(doc.facts?.supply)
  return (
    first ??
    note.or(
      undefined,
      'XXX',
      'needs.money.currency',
      'no currency is named; figures are in the shop’s own',
      'ISO 4217: XXX is no currency',
    )
  )
}

function firstCurrency(value: unknown): string | null {
  if (value === null || typeof value !== 'object') return null
  if ('currency' in value && 'amount' in value) return value.currency as string
  for (const child of Object.values(value)) {
    const found = firstCurrency(child)
    if (found !== null) return found
  }
  return null
}
