import { type Problem, parseSize } from '../kernel/index.ts'
import type { Path } from './document.ts'
import { offerId } from './offers.ts'
import { machinesOfRow, tagsOf } from './plugs.ts'
import { LIMIT_PLUGS, nearest, problem } from './problems.ts'
import { type BoxRow, box, type PhaseRow, phase } from './schema/boxes.ts'
import { PIN_PATH } from './schema/job.ts'
import { type MachineRow, machine } from './schema/machines.ts'

/** A problem and where it stands; line and column are added by the reader. */
export interface Placed {
  readonly problem: Problem
  readonly path: Path
  readonly at?: 'key' | 'value'
}

type Loose = Record<string, unknown>
const isGroup = (value: unknown): value is Loose => value !== null && typeof value === 'object' && !Array.isArray(value)
const under = (value: unknown, ...keys: string[]): unknown =>
  keys.reduce<unknown>((v, key) => (isGroup(v) ? v[key] : undefined), value)
const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : [])

/** What the schema cannot see: names that must be unique or exist, lists that must agree. Judged on every row that can be read, whatever else is wrong. */
export function referenceProblems(raw: unknown): readonly Placed[] {
  const written = list(under(raw, 'needs', 'machines'))
  if (written.length > LIMIT_PLUGS)
    return [{ problem: problem('job/too-many-plugs', written.length), path: ['needs', 'machines'] }]
  const machines = rowsRead(written, (v) => machine.safeParse(v))
  const rows: Rows = {
    tags: machines.map(([, r]) => r.tag),
    counts: new Map(machines.map(([, r]) => [r.tag, r.count ?? 1])),
    plugs: new Set(machines.flatMap(([, r]) => tagsOf(r))),
  }
  const boxes = rowsRead(list(under(raw, 'boxes')), (v) => box.safeParse(v))
  const phases = rowsRead(list(under(raw, 'phases')), (v) => phase.safeParse(v))
  const boxIds = idsOf(list(under(raw, 'boxes')))
  const phaseIds = idsOf(list(under(raw, 'phases')))
  return [
    ...tagProblems(machines),
    ...machines.flatMap(([index, row]) => machineProblems(index, row, rows, boxIds, phaseIds)),
    ...placeProblems(
      under(raw, 'needs', 'places'),
      machines.flatMap(([, row]) => machinesOfRow(row)),
    ),
    ...uniqueIds(boxIds, 'boxes', 'box'),
    ...uniqueIds(phaseIds, 'phases', 'phase'),
    ...uniqueOffers(raw),
    ...surveyProblems(raw, known(boxIds)),
    ...boxProblems(boxes, boxIds),
    ...phaseProblems(phases, boxIds),
    ...pinProblems(under(raw, 'choices')),
    ...assumedProblems(raw),
    ...currencyProblems(raw),
  ]
}

interface Rows {
  readonly tags: readonly string[]
  readonly counts: ReadonlyMap<string, number>
  readonly plugs: ReadonlySet<string>
}

function rowsRead<T>(
  rows: readonly unknown[],
  parse: (value: unknown) => { readonly success: boolean; readonly data?: T | undefined },
): readonly (readonly [number, T])[] {
  return rows.flatMap((value, index) => {
    const read = parse(value)
    return read.success ? [[index, read.data as T] as const] : []
  })
}

const idsOf = (rows: readonly unknown[]): readonly (string | null)[] =>
  rows.map((row) => (isGroup(row) && typeof row.id === 'string' ? row.id : null))

function tagProblems(rows: readonly (readonly [number, MachineRow])[]): readonly Placed[] {
  const taken = new Map<string, number>()
  const out: Placed[] = []
  let plugs = 0
  for (const [index, row] of rows) {
    plugs += row.count ?? 1
    if (plugs > LIMIT_PLUGS)
      return [...out, { problem: problem('job/too-many-plugs', plugs), path: ['needs', 'machines', index, 'count'] }]
    const again = tagsOf(row).find((tag) => taken.has(tag))
    if (again !== undefined)
      out.push({
        problem: problem('job/tag-duplicate', again, `row ${(taken.get(again) as number) + 1} of the machines`),
        path: ['needs', 'machines', index, 'tag'],
      })
    for (const tag of tagsOf(row)) if (!taken.has(tag)) taken.set(tag, index)
  }
  return out
}

function machineProblems(
  index: number,
  row: MachineRow,
  rows: Rows,
  boxIds: readonly (string | null)[],
  phaseIds: readonly (string | null)[],
): readonly Placed[] {
  const out: Placed[] = []
  const path = (key: string): Path => ['needs', 'machines', index, key]
  const count = row.count ?? 1
  if (row.cord !== undefined && row.cord.length !== 1 && row.cord.length !== count) {
    out.push({
      problem: problem('job/count-mismatch', `${row.cord.length} lengths`, `one length, or ${count}: one for each of the row`),
      path: path('cord'),
    })
  }
  const boxNames = known(boxIds)
  const phaseNames = known(phaseIds)
  const feeds = row['fed-by']
  if (typeof feeds === 'string') out.push(...named(feeds, boxNames.length === 0 ? ['box'] : boxNames, 'a box', path('fed-by')))
  else if (feeds !== undefined) {
    for (const [phaseId, boxId] of Object.entries(feeds)) {
      out.push(...named(phaseId, phaseNames, 'a phase', [...path('fed-by'), phaseId], 'key'))
      if (boxId !== 'nothing') out.push(...named(boxId, boxNames, 'a box', [...path('fed-by'), phaseId]))
    }
  }
  const hosts = row['shares-plug-of']
  if (hosts !== undefined) {
    const missing = hosts.filter((h) => !rows.counts.has(h) && !rows.plugs.has(h))
    for (const host of missing)
      out.push({
        problem: problem('job/no-such', host, 'the tag of a row or plug', nearest(host, rows.tags), rows.tags),
        path: path('shares-plug-of'),
      })
    const plugs = hosts.reduce((n, h) => n + (rows.counts.get(h) ?? 1), 0)
    if (missing.length === 0 && plugs !== count)
      out.push({
        problem: problem('job/count-mismatch', `${plugs} plugs to share`, `${count}: one for each of the row`),
        path: path('shares-plug-of'),
      })
    if (hosts.includes(row.tag))
      out.push({ problem: problem('job/circle', `${row.tag} shares its own plug`), path: path('shares-plug-of') })
  }
  return out
}

/** A place belongs to a machine of the list. */
function placeProblems(raw: unknown, machines: readonly string[]): readonly Placed[] {
  if (!isGroup(raw)) return []
  return Object.keys(raw).flatMap((name) => named(name, machines, 'a machine', ['needs', 'places', name], 'key'))
}

const known = (ids: readonly (string | null)[]): readonly string[] => ids.filter((id) => id !== null)

function named(
  found: string,
  all: readonly string[],
  what: string,
  path: Path,
  at: 'key' | 'value' = 'value',
): readonly Placed[] {
  return all.includes(found) ? [] : [{ problem: problem('job/no-such', found, what, nearest(found, all), all), path, at }]
}

function uniqueIds(ids: readonly (string | null)[], where: string, what: string): readonly Placed[] {
  return ids.flatMap((id, index) =>
    id !== null && ids.indexOf(id) < index
      ? [{ problem: problem('job/tag-duplicate', id, `${what} ${ids.indexOf(id) + 1}`), path: [where, index, 'id'] }]
      : [],
  )
}

function uniqueOffers(raw: unknown): readonly Placed[] {
  const rows = list(under(raw, 'facts', 'supply', 'offers')).map((row) =>
    isGroup(row) && typeof row.kind === 'string'
      ? { kind: row.kind, id: typeof row.id === 'string' ? row.id : undefined }
      : { kind: '', id: undefined },
  )
  const ids = rows.map((row, index) => (row.kind === '' ? null : offerId(row, index, rows)))
  return ids.flatMap((id, index) =>
    id !== null && ids.indexOf(id) < index
      ? [
          {
            problem: problem('job/tag-duplicate', id, `offer ${ids.indexOf(id) + 1}`),
            path: ['facts', 'supply', 'offers', index, 'id'],
          },
        ]
      : [],
  )
}

/** Each survey belongs to a box of the job, and a box has one. */
function surveyProblems(raw: unknown, boxNames: readonly string[]): readonly Placed[] {
  const ids = list(under(raw, 'facts', 'surveys')).map((row) => (isGroup(row) && typeof row.box === 'string' ? row.box : null))
  return ids.flatMap((id, index): readonly Placed[] => {
    if (id === null) return []
    const path: Path = ['facts', 'surveys', index, 'box']
    if (ids.indexOf(id) < index) return [{ problem: problem('job/tag-duplicate', id, `survey ${ids.indexOf(id) + 1}`), path }]
    return named(id, boxNames.length === 0 ? ['box'] : boxNames, 'a box', path)
  })
}

function boxProblems(rows: readonly (readonly [number, BoxRow])[], ids: readonly (string | null)[]): readonly Placed[] {
  const feeder = new Map(
    rows.flatMap(([, row]) => (row['fed-from'] === undefined ? [] : [[row.id, row['fed-from'].box] as const])),
  )
  return rows.flatMap(([index, row]): readonly Placed[] => {
    const apart = (row.distances ?? []).flatMap((d, i) => {
      const path: Path = ['boxes', index, 'distances', i, 'box']
      return d.box === row.id
        ? [{ problem: problem('job/circle', `${row.id} from ${row.id}`), path }]
        : named(d.box, known(ids), 'a box', path)
    })
    if (apart.length > 0) return apart
    if (row['fed-from'] === undefined) return []
    const path: Path = ['boxes', index, 'fed-from', 'box']
    const missing = named(row['fed-from'].box, known(ids), 'a box', path)
    if (missing.length > 0) return missing
    const way = [row.id]
    for (let next = feeder.get(row.id); next !== undefined; next = feeder.get(next)) {
      if (way.includes(next)) return [{ problem: problem('job/circle', [...way, next].join(' from ')), path }]
      way.push(next)
    }
    return []
  })
}

function phaseProblems(rows: readonly (readonly [number, PhaseRow])[], boxIds: readonly (string | null)[]): readonly Placed[] {
  return rows.flatMap(([index, row], i): readonly Placed[] => {
    const before = rows[i - 1]?.[1]
    const overlap = before !== undefined && row.months.from <= before.months.to
    return [
      ...(overlap
        ? [
            {
              problem: problem(
                'job/phases-overlap',
                `months ${row.months.from} to ${row.months.to} behind months ${before.months.from} to ${before.months.to}`,
              ),
              path: ['phases', index, 'months'],
            },
          ]
        : []),
      ...(row.boxes ?? []).flatMap((id, n) => named(id, known(boxIds), 'a box', ['phases', index, 'boxes', n])),
    ]
  })
}

function pinProblems(choices: unknown): readonly Placed[] {
  if (!isGroup(choices)) return []
  return Object.entries(choices).flatMap(([key, pin]): readonly Placed[] => {
    if (!PIN_PATH.test(key)) {
      const wanted = 'the path of a choice: words with points between'
      const mend = 'Write for example “cords.G4C.size”, with “value”, “by” and “why” below it.'
      return [{ problem: problem('job/wrong-kind', key, wanted, mend), path: ['choices', key], at: 'key' }]
    }
    const value = under(pin, 'value')
    const size =
      key.endsWith('.size') && (typeof value === 'string' || typeof value === 'number') ? parseSize(String(value)) : null
    return size === null || size.ok ? [] : size.problems.map((p) => ({ problem: p, path: ['choices', key, 'value'] }))
  })
}

/** Each path under `assumed` leads to a value of the document. */
function assumedProblems(raw: unknown): readonly Placed[] {
  return list(under(raw, 'assumed')).flatMap((row, index) => {
    const path = under(row, 'path')
    if (typeof path !== 'string') return []
    const steps = path.split(/\.|(?=\[)/).map((step) => (/^\[\d+\]$/.test(step) ? Number(step.slice(1, -1)) : step))
    const value = steps.reduce<unknown>(
      (v, step) => (Array.isArray(v) ? v[step as number] : isGroup(v) && Object.hasOwn(v, step) ? v[step] : undefined),
      raw,
    )
    return value === undefined
      ? [
          {
            problem: problem('job/no-such', path, 'the path of a value in this document', null, []),
            path: ['assumed', index, 'path'],
          },
        ]
      : []
  })
}

/** All money of a job is in one currency: the one named, else the first written. */
function currencyProblems(raw: unknown): readonly Placed[] {
  const said = under(raw, 'needs', 'money', 'currency')
  const found: { readonly currency: string; readonly path: Path }[] = []
  const look = (value: unknown, path: Path): void => {
    if (typeof value === 'string') {
      const money = /^-?\d+(?:\.\d+)? ?([A-Z]{3})(?: per | ?\/ ?|$)/.exec(value.trim())
      if (money && !NOT_MONEY.has(money[1] as string)) found.push({ currency: money[1] as string, path })
    } else if (Array.isArray(value)) for (const [i, v] of value.entries()) look(v, [...path, i])
    else if (isGroup(value)) for (const [key, v] of Object.entries(value)) look(v, [...path, key])
  }
  look(under(raw, 'needs', 'money'), ['needs', 'money'])
  look(under(raw, 'facts', 'supply'), ['facts', 'supply'])
  const wanted = typeof said === 'string' && /^[A-Z]{3}$/.test(said) ? said : found[0]?.currency
  const bad =
    typeof said === 'string' && !/^[A-Z]{3}$/.test(said)
      ? [
          {
            problem: problem('job/wrong-kind', said, 'three capital letters (ISO 4217)', 'Write for example “USD”.'),
            path: ['needs', 'money', 'currency'],
          },
        ]
      : []
  return [
    ...bad,
    ...found
      .filter((f) => f.currency !== wanted)
      .map((f) => ({ problem: problem('job/currency-mixed', f.currency, wanted ?? ''), path: f.path })),
  ]
}

/** Units of three capitals that are no currency. */
const NOT_MONEY = new Set(['AWG', 'MCM', 'MVA'])
