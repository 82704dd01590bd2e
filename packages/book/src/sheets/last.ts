import { SYMBOL_SETS, symbolSheet } from '@plugstead/drawings'
import type { Finding } from '@plugstead/engine/kernel'
import type { Inline, Sheet, Span } from '../content.ts'
import type { BookInput } from '../results.ts'
import { col, marked, plain, worstFirst } from '../words.ts'
import { workingBlocks } from '../working-family.ts'

/** Every working that no question's finding names. */
export function otherWorkingsSheet(input: BookInput, shown: ReadonlySet<string>): readonly Sheet[] {
  const rest = input.assessment.workings.filter((w) => !shown.has(w.id))
  if (rest.length === 0) return []
  return [
    {
      part: 'workings',
      head: 'Further workings',
      sub: 'figures no finding hangs on',
      scale: 'not to scale',
      key: true,
      blocks: workingBlocks(rest, input.assessment),
    },
  ]
}

export function assumedSheet({ job, assessment, design }: BookInput): Sheet {
  return {
    part: 'assumed',
    head: 'What was assumed',
    sub: 'nobody has said it; saying it in the job at the path named replaces it',
    scale: 'not to scale',
    key: true,
    blocks: [
      assessment.assumed.length === 0
        ? { k: 'para', text: 'Nothing: every value was told.' }
        : {
            k: 'table',
            columns: [col('what was taken', -1), col('after', -0.8), col('path in the job', -0.8)],
            rows: assessment.assumed.map((a): Inline[] => [[['assumed', plain(a.said)]], plain(a.source), a.path]),
          },
      { k: 'head', text: 'Pinned', note: 'held by a person, not chosen by the program' },
      job.pins.length + design.pinned.length === 0
        ? { k: 'para', text: 'Nothing.' }
        : {
            k: 'table',
            columns: [col('path', -1), col('value', -1), col('by', -0.6), col('why', -1)],
            rows: [
              ...job.pins.map((p): Inline[] => [[['pinned', p.path]], String(p.value), p.by, p.why]),
              ...design.pinned
                .filter((path) => !job.pins.some((p) => p.path === path))
                .map((path): Inline[] => [[['pinned', path]], '', '', '']),
            ],
          },
      { k: 'head', text: 'Read, kept, and not used yet' },
      { k: 'para', text: job.unused.length === 0 ? 'Nothing.' : job.unused.join(', ') },
    ],
  }
}

/** Rows recalled from memory that decide on shock, fire, fault or demand, for the licensed person to look up. */
export function confirmSheet({ assessment, rules }: BookInput): Sheet {
  const findings = assessment.findings.filter((f) => f.confirm === true)
  const wanted = new Set(findings.flatMap((f) => f.workings))
  const places = new Map<string, { readonly edition: string; readonly used: Set<string> }>()
  for (const w of assessment.workings) {
    if (!wanted.has(w.id)) continue
    const rests = [...w.steps.map((x) => x.rests), ...(w.judgement === undefined ? [] : [w.judgement.rests])]
    for (const r of rests) {
      if (r.provenance !== 'memory') continue
      const row = places.get(r.place) ?? { edition: r.edition ?? '', used: new Set<string>() }
      row.used.add(w.id)
      places.set(r.place, row)
    }
  }
  const rows = [...places.entries()].sort((a, b) => (a[0] < b[0] ? -1 : 1))
  return {
    part: 'confirm',
    head: 'Confirm in the book',
    sub: `recalled from memory, deciding on shock, fire, fault or demand; the book: ${rules.title}`,
    scale: 'not to scale',
    key: true,
    blocks: [
      {
        k: 'para',
        text: 'Look each one up in the edition that is adopted where the box stands, write what it says, and put your initials. Where it differs, the answers that rest on it are void.',
      },
      rows.length === 0
        ? { k: 'para', text: 'No finding names a working that rests on such a row.' }
        : {
            k: 'table',
            columns: [col('place', -1.4), col('worked with on', -1), col('the book says', 38), col('initials', 14)],
            rows: rows.map(([place, row]): Inline[] => [
              `◧ ${plain(place)}${row.edition === '' ? '' : ` (${row.edition})`}`,
              usedOn([...row.used]),
              '',
              '',
            ]),
          },
      { k: 'head', text: 'Findings that hang on them' },
      findings.length === 0
        ? { k: 'para', text: 'None.' }
        : {
            k: 'table',
            small: true,
            columns: [col('', 20), col('finding', 44), col('about', -1)],
            rows: hanging(findings),
          },
    ],
  }
}

/** Findings of one kind and verdict in one line, with all they are about. */
function hanging(findings: readonly Finding[]): readonly (readonly Inline[])[] {
  const groups = new Map<string, Finding[]>()
  for (const f of worstFirst(findings)) {
    const key = `${f.verdict} ${f.code}`
    groups.set(key, [...(groups.get(key) ?? []), f])
  }
  return [...groups.values()].map((all): Inline[] => [
    marked(all[0]!.verdict, all[0]!.verdict),
    all[0]!.code,
    all.length === 1 ? plain(`${all[0]!.subject}: ${all[0]!.said}`) : [...new Set(all.map((f) => f.subject))].join(', '),
  ])
}

function usedOn(ids: readonly string[]): Inline {
  const shown = ids.slice(0, 3).flatMap((id, i): Span[] => [...(i > 0 ? ['; '] : []), `${id}, `, ['sheet', id]])
  return ids.length > 3 ? [...shown, `; and ${ids.length - 3} more`] : shown
}

export function symbolsSheet({ rules }: BookInput): Sheet {
  const set = SYMBOL_SETS[rules.symbols]
  return {
    part: 'symbols',
    head: 'Symbols and marks',
    sub: `graphic symbols after ${set.standard} ◧ memory: compare with the standard`,
    scale: 'not to scale',
    key: true,
    blocks: [
      { k: 'drawing', scene: symbolSheet(set, 185) },
      { k: 'head', text: 'Verdicts' },
      {
        k: 'facts',
        rows: [
          [[['mark', 'holds'], ' holds'], 'within the limits computed, and not near them'],
          [[['mark', 'tight'], ' tight'], 'within the limits, inside the margin the check states'],
          [
            [['mark', 'fails'], ' ', ['fails', 'fails']],
            'beyond a limit; set in outline where the limit is a preference of the house',
          ],
          [[['mark', 'unknown'], ' unknown'], 'an input is missing or contradicts itself, or an iteration was given up'],
          [[['mark', 'others'], ' others decide'], 'stands beside a verdict and names who'],
        ],
      },
      { k: 'head', text: 'How firm a value is' },
      {
        k: 'facts',
        rows: [
          ['no edge', 'worked out, or chosen by the plan'],
          [[['assumed', 'assumed']], 'a recorded default that nobody has told'],
          [[['bounded', '3.1 … 17.4']], 'not known: judged at both ends'],
          [[['told', 'told']], 'told or measured'],
          [[['pinned', 'pinned']], 'held by a person'],
          ['■ read', 'seen in a public document that can be looked at again'],
          ['◧ memory', 'recalled from the document named: confirm'],
          ['□ common practice', 'a habit of the trade without a publication'],
        ],
      },
      { k: 'head', text: 'Colours of conductors under this rule set' },
      {
        k: 'table',
        columns: (['A', 'B', 'C', 'N', 'PE'] as const).map((c) => col(c, -1)),
        rows: [(['A', 'B', 'C', 'N', 'PE'] as const).map((c) => rules.colours[c])],
      },
    ],
  }
}
