import type { CheckedValue, Near, Scalar, Tolerance } from './types.ts'

/** Compares our values with theirs, leaf by leaf of `theirs`. What we give beyond that is not looked at. */
export function compareValues(
  ours: Readonly<Record<string, unknown>>,
  theirs: Readonly<Record<string, unknown>>,
  tolerance: Tolerance,
) {
  const all: CheckedValue[] = []
  for (const [key, value] of Object.entries(theirs)) {
    const own = tolerance.values?.[key] ?? tolerance
    for (const leaf of leaves(key, value, ours[key], own.range === true)) all.push(judged(leaf, own))
  }
  return all
}

interface Leaf {
  readonly name: string
  readonly theirs: Scalar
  readonly ours: unknown
  /** Middle of their range, where `theirs` is what of it lies nearest to ours. */
  readonly middle?: number
}

function leaves(name: string, theirs: unknown, ours: unknown, range: boolean): readonly Leaf[] {
  if (range && isRange(theirs) && !Array.isArray(ours)) {
    const [low, high] = theirs
    const nearest = typeof ours === 'number' ? Math.min(Math.max(ours, low), high) : low
    return [{ name: `${name} (${low} to ${high})`, theirs: nearest, ours, middle: (low + high) / 2 }]
  }
  if (Array.isArray(theirs)) {
    const others = Array.isArray(ours) ? ours : []
    const inside = theirs.flatMap((value, at) => leaves(`${name}[${at}]`, value, others[at], range))
    // A longer list of ours is another answer, not a closer one.
    return others.length > theirs.length
      ? [...inside, { name: `${name}.length`, theirs: theirs.length, ours: others.length }]
      : inside
  }
  if (typeof theirs === 'object' && theirs !== null) {
    const other = typeof ours === 'object' && ours !== null ? (ours as Record<string, unknown>) : {}
    return Object.entries(theirs).flatMap(([key, value]) => leaves(`${name}.${key}`, value, other[key], range))
  }
  return [{ name, theirs: theirs as Scalar, ours }]
}

const isRange = (of: unknown): of is readonly [number, number] =>
  Array.isArray(of) && of.length === 2 && of.every((end) => typeof end === 'number') && of[0]! <= of[1]!

function judged({ name, theirs, ours, middle }: Leaf, tolerance: Near): CheckedValue {
  const known = ours === null || ['number', 'string', 'boolean'].includes(typeof ours)
  const given = known ? { ours: ours as Scalar } : {}
  if (typeof theirs !== 'number')
    return { name, ...given, theirs, ok: known && ours === theirs, tolerance: null, why: 'the same word' }
  const allowed = Math.max(tolerance.absolute ?? 0, Math.abs(middle ?? theirs) * (tolerance.relative ?? 0))
  const near =
    typeof ours === 'number' && Number.isFinite(ours) && Math.abs(ours - theirs) <= allowed + Math.abs(theirs) * LAST_BITS
  return { name, ...given, theirs, ok: near, tolerance: allowed, why: tolerance.why }
}

/** Decimal fractions are not kept exactly; an exact case may differ by that much. */
const LAST_BITS = 1e-12
