import type { z } from 'zod'
import type { Problem, Result } from '../kernel/index.ts'
import { checkBytes, type Opened, openDocument, type Path } from './document.ts'
import { nearest, problem } from './problems.ts'
import type { Placed } from './references.ts'

type Groups = Readonly<Record<string, z.ZodObject>>

interface SheetKind<S extends z.ZodType> {
  readonly schema: S
  /** Another program's file, or a later version's: then nothing else is looked at. */
  readonly stranger: (doc: Opened) => Problem | null
  /** What holds between the lines of one sheet. */
  readonly references?: (raw: unknown) => readonly Placed[]
  readonly groups?: Groups
}

/**
 * Reads one sheet of YAML or JSON against its schema, into the units of the engine. Every problem at once, each with line, what was found,
 * what is wanted and a mend. Never throws on any input.
 */
export function readSheet<S extends z.ZodType>(
  input: string | Uint8Array,
  { schema, stranger, references, groups = {} }: SheetKind<S>,
): Result<{ readonly sheet: z.output<S>; readonly raw: unknown }> {
  const text =
    typeof input === 'string'
      ? { ok: true as const, value: input.startsWith('\uFEFF') ? input.slice(1) : input }
      : checkBytes(input)
  if (!text.ok) return text
  const opened = openDocument(text.value)
  if (!opened.ok) return opened
  const doc = opened.value
  const strange = stranger(doc)
  if (strange !== null) return { ok: false, problems: [strange] }
  const parsed = schema.safeParse(doc.raw)
  const known = (path: Path) => knownKeys(schema, groups, path)
  const issues = parsed.success
    ? []
    : parsed.error.issues.slice(0, MOST_PROBLEMS).flatMap((issue) => placedOf(issue, doc.raw, known))
  const placed = [...issues.slice(0, MOST_PROBLEMS), ...(references?.(doc.raw) ?? []).slice(0, MOST_PROBLEMS)].map((p) =>
    withPlace(p, doc),
  )
  const all = [...doc.problems, ...placed].sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0))
  if (all.length > 0 || !parsed.success) return { ok: false, problems: unique(all).slice(0, MOST_PROBLEMS) }
  return { ok: true, value: { sheet: parsed.data, raw: doc.raw } }
}

/** More than this in one file is another kind of file. */
const MOST_PROBLEMS = 200

function unique(all: readonly Problem[]): readonly Problem[] {
  const seen = new Set<string>()
  return all.filter((p) => {
    const key = `${p.line} ${p.column} ${p.code} ${p.found}`
    return seen.has(key) ? false : seen.add(key)
  })
}

type Issue = z.core.$ZodIssue

function placedOf(issue: Issue, raw: unknown, known: (path: Path) => readonly string[]): readonly Placed[] {
  const path = issue.path as Path
  if (issue.code === 'custom') {
    const carried = (issue.params as { readonly problem?: Problem } | undefined)?.problem
    if (carried === undefined)
      return [{ problem: problem('job/wrong-kind', valueAt(raw, path), 'another value', issue.message), path }]
    const inner = /^\[(\d+)\]$/.exec(carried.path ?? '')
    return [{ problem: carried, path: inner ? [...path, Number(inner[1])] : path }]
  }
  if (issue.code === 'unrecognized_keys') {
    const keys = known(path)
    return issue.keys.slice(0, MOST_PROBLEMS).map((key) => ({
      problem: problem('job/unknown-key', key, nearest(key, keys), keys, valueAt(raw, [...path, key]) === null),
      path: [...path, key],
      at: 'key' as const,
    }))
  }
  const value = valueAt(raw, path)
  if (value === undefined || value === null) return [{ problem: problem('job/missing', wantedOf(issue)), path, at: 'key' }]
  return [
    {
      problem: problem('job/wrong-kind', value, wantedOf(issue), 'Look at the indentation, and at the dashes that make a list.'),
      path,
    },
  ]
}

function wantedOf(issue: Issue): string {
  if (issue.code !== 'invalid_type') return issue.message
  if (issue.expected === 'array') return 'a list: lines that begin with “- ”'
  return issue.expected === 'object' || issue.expected === 'record'
    ? 'a group of keys, each with its value'
    : String(issue.expected)
}

const valueAt = (raw: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (v, step) => (v !== null && typeof v === 'object' ? (v as Record<string, unknown>)[step as string] : undefined),
    raw,
  )

/** Keys the schema knows at a path. */
function knownKeys(sheet: z.ZodType, groups: Groups, path: Path): readonly string[] {
  let schema: unknown = sheet
  const inner = (s: unknown): unknown => {
    const def = (s as { _zod?: { def: { type: string; innerType?: unknown } } })?._zod?.def
    return def?.type === 'optional' ? inner(def.innerType) : s
  }
  for (const step of path) {
    const def = (
      inner(schema) as {
        _zod?: { def: { type: string; shape?: Record<string, unknown>; element?: unknown; valueType?: unknown } }
      }
    )?._zod?.def
    schema =
      def?.type === 'object'
        ? def.shape?.[step as string]
        : def?.type === 'array'
          ? def.element
          : def?.type === 'record'
            ? def.valueType
            : undefined
  }
  const def = (inner(schema) as { _zod?: { def: { shape?: Record<string, unknown> } } })?._zod?.def
  return Object.keys(def?.shape ?? groups[String(path[path.length - 1])]?.shape ?? {})
}

function withPlace(placed: Placed, doc: Opened): Problem {
  return { ...placed.problem, ...doc.placeOf(placed.path, placed.at ?? 'value'), path: pathText(placed.path) }
}

/** `needs.machines[3].cord`; a key with points in it stands in quotes. */
export const pathText = (path: Path): string =>
  path
    .map((step, i) =>
      typeof step === 'number' ? `[${step}]` : `${i === 0 ? '' : '.'}${/[.\s]/.test(step) ? `“${step}”` : step}`,
    )
    .join('')
