import type { CheckedValue, Scalar, Tolerance } from './types.ts'

/** Compares our values with theirs, leaf by leaf of `theirs`. What we give beyond that is not looked at. */
export function compareValues(
  ours: Readonly<Record<string, unknown>>,
  theirs: Readonly<Record<string, unknown>>,
  tolerance: Tolerance,
) {
  const all: CheckedValue[] = []
  for (const [key, value] of Object.entries(theirs)) {
    const own = tolerance.values?.[key] ?? tolerance
    for (const leaf of leaves(key, value, ours[key])) all.push(judged(leaf, own))
  }
  return all
}

interface Leaf {
  readonly name: string
  readonly theirs: Scalar
  readonly ours: unknown
}

function leaves(name: string, theirs: unknown, ours: unknown): readonly Leaf[] {
  if (Array.isArray(theirs)) {
    const others = Array.isArray(ours) ? ours : []
    const inside = theirs.flatMap((value, at) => leaves(`${name}[${at}]`, value, others[at]))
    // A longer list of ours is another answer, not a closer one.
    return others.length > theirs.length
      ? [...inside, { name: `${name}.length`, theirs: theirs.length, ours: others.length }]
      : inside
  }
  if (typeof theirs === 'object' && theirs !== null) {
    const other = typeof ours === 'object' && ours !== null ? (ours as Record<string, unknown>) : {}
    return Object.entries(theirs).flatMap(([key, value]) => leaves(`${name}.${key}`, value, other[key]))
  }
  return [{ name, theirs: theirs as Scalar, ours }]
}

function judged({ name, theirs, ours }: Leaf, tolerance: Omit<Tolerance, 'values'>): CheckedValue {
  const known = ours === null || ['number', 'string', 'boolean'].includes(typeof ours)
  const given = known ? { ours: ours as Scalar } : {}
  if (typeof theirs !== 'number')
    return { name, ...given, theirs, ok: known && ours === theirs, tolerance: null, why: 'the same word' }
  const allowed = Math.max(tolerance.absolute ?? 0, Math.abs(theirs) * (tolerance.relative ?? 0))
  const near =
    typeof ours === 'number' && Number.isFinite(ours) && Math.abs(ours - theirs) <= allowed + Math.abs(theirs) * LAST_BITS
  return { name, ...given, theirs, ok: near, tolerance: allowed, why: tolerance.why }
}

/** Decimal fractions are not kept exactly; an exact case may differ by that much. */
const LAST_BITS = 1e-12
