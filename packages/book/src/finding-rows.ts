import type { Finding } from '@plugstead/engine/kernel'
import type { Inline } from './content.ts'
import { marked, plain, worstFirst } from './words.ts'

/** Findings of one kind: the first, which is said in full, and the others, which are named. */
export interface FindingGroup {
  readonly first: Finding
  readonly others: readonly Finding[]
  readonly mark: Inline
}

/**
 * Worst first. What fails or is unknown: each, save that what one subject lacks stands in one row. What is tight or holds: one row a kind,
 * the first said in full, the others named.
 */
export function findingGroups(findings: readonly Finding[]): readonly FindingGroup[] {
  const groups = new Map<string, Finding[]>()
  for (const f of worstFirst(findings)) {
    const key = lacks(f)
      ? JSON.stringify([f.code, f.verdict, f.subject])
      : f.verdict === 'holds' || f.verdict === 'tight'
        ? JSON.stringify([f.code, f.verdict, f.basis, f.provenance, f.confirm])
        : `${groups.size}`
    groups.set(key, [...(groups.get(key) ?? []), f])
  }
  return [...groups.values()].map(([first, ...others]): FindingGroup => {
    const { verdict, basis } = first!
    return {
      first: first!,
      others,
      mark: verdict === 'fails' && basis !== 'house' ? [['mark', verdict], ' ', ['fails', verdict]] : marked(verdict, verdict),
    }
  })
}

const lacks = (f: Finding): boolean => f.verdict === 'unknown' && f.code.endsWith('/missing')

/** What is so of a group: the first in full, and of the others their number or, `named`, their subjects. */
export function groupWords({ first, others }: FindingGroup, named: boolean): Inline {
  if (lacks(first)) {
    const all = [first, ...others]
    return sentence(
      all.map((f) => f.said).join(' '),
      all.flatMap((f) => f.mends.map((m) => m.words)),
      first.decides,
    )
  }
  const words = sentence(
    first.said,
    first.mends.map((m) => m.words),
    first.decides,
  )
  if (others.length === 0) return words
  const names = named ? `: ${[...new Set(others.map((o) => o.subject))].join(', ')}` : ''
  return [
    ...(typeof words === 'string' ? [words] : words),
    ` ${first.verdict === 'holds' ? 'So do' : 'Likewise'} ${others.length} more, each with its own figures in the workings${names}.`,
  ]
}

function sentence(said: string, mends: readonly string[], decides: string | undefined): Inline {
  const mend = mends.length > 0 ? ` What would do: ${[...new Set(mends)].join('; or ')}.` : ''
  const words = plain(`${said}${mend}`)
  return decides === undefined ? words : [`${words} `, ['mark', 'others'], ` not yet decided by ${decides}.`]
}
