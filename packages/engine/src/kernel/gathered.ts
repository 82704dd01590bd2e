import type { Finding } from './finding.ts'

/**
 * Findings of one code that stand equally are said once, by the one nearest to its limit; those that fail are said one by one. A wall has
 * thirty holes, and nobody reads thirty sentences that say the same. `codes`: only these are gathered; absent: all.
 */
export function gathered(box: string, all: readonly Finding[], codes?: ReadonlySet<string>): readonly Finding[] {
  const groups = new Map<string, Finding[]>()
  for (const f of all) {
    const alone = f.verdict === 'fails' || codes?.has(f.code) === false
    const key = `${f.code}|${alone ? f.subject : f.verdict}`
    groups.set(key, [...(groups.get(key) ?? []), f])
  }
  return [...groups.values()].flatMap((group) =>
    group.length === 1 || group[0]!.verdict === 'fails' ? group : [together(box, group)],
  )
}

function together(box: string, group: readonly Finding[]): Finding {
  const nearest = group.toSorted((a, b) => roomOf(a) - roomOf(b) || (a.subject < b.subject ? -1 : 1))[0]!
  const rest = group.length - 1
  const others = `${rest} more ${rest === 1 ? 'stands' : 'stand'}`
  return {
    ...nearest,
    subject: box,
    said: `${nearest.said} ${others} ${nearest.verdict === 'holds' ? 'with as much room or more' : 'alike'}.`,
    workings: group.flatMap((f) => f.workings),
  }
}

/** Room left as a share of the limit; what has no figures comes last. */
function roomOf({ demand, limit }: Finding): number {
  const [d, l] = [Number(demand?.value), Number(limit?.value)]
  return Number.isFinite(d) && Number.isFinite(l) && l !== 0 ? Math.abs(d - l) / Math.abs(l) : Infinity
}
