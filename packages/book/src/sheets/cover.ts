import { type Finding, QUESTION_WORDS, QUESTIONS } from '@plugstead/engine/kernel'
import { CAUTION, type Inline, type Sheet } from '../content.ts'
import { findingGroups, groupWords } from '../finding-rows.ts'
import type { BookInput } from '../results.ts'
import { col, marked, plain, provenanceWords, worstFirst } from '../words.ts'

/** Who decides, what this is and is not, and what it is about. */
export function coverSheet({ job, assessment, rules, design }: BookInput): Sheet {
  const findings = assessment.findings
  const roles = [...new Set(findings.map((f) => f.decides).filter((r) => r !== undefined))]
  const cautions = [...new Set(findings.map((f) => f.caution).filter((c) => c !== undefined))]
  const built = assessment.questions.filter((q) => q.verdict !== 'not built')
  const confirm = findings.filter((f) => f.confirm === true).length
  return {
    part: 'cover',
    head: job.title,
    sub: 'Job book: what feeds it, who plugs in where, volts, and what happens when something goes wrong',
    scale: 'not to scale',
    key: false,
    blocks: [
      { k: 'para', text: [['b', CAUTION]] },
      {
        k: 'para',
        text: 'Nothing in this book is a permission. Its best word is “within the limits computed”; what was not computed, and what others decide, is named.',
      },
      { k: 'strip', text: 'Before any cover comes off: isolate, lock, prove dead, earth where it may be charged.' },
      { k: 'head', text: 'Who decides' },
      {
        k: 'facts',
        rows: [
          ['the authority having jurisdiction', 'whether the installation may be used, under the code adopted where it stands'],
          ['a licensed person', 'checks every working by hand or by other means, and does the work'],
          ['the utility', 'the fault level, the service and the day it is there'],
          ...roles
            .filter((r) => !/authority|inspector|licensed|utility/i.test(r))
            .map((r): [Inline, Inline] => [r, 'as named beside the finding']),
        ],
      },
      { k: 'head', text: 'What it is about' },
      {
        k: 'facts',
        rows: [
          ['place', plain(`${job.site.place}, ${job.site.elevationM} m above the sea`)],
          [
            'rule set',
            plain(
              `${rules.title}, ${rules.edition}${job.rules.overlays.length > 0 ? `, with ${job.rules.overlays.join(', ')}` : ''}`,
            ),
          ],
          [
            'boxes',
            design.boxes
              .map((b) => `${b.box} (${b.phase}): ${b.system}, ${b.serviceA} A, fed by ${b.fedFrom?.box ?? b.offer}`)
              .map(plain)
              .join('; '),
          ],
          ['machines', `${job.plugs.length} plugs`],
          ['goal', job.needs.goal],
          ['needed by', job.needs.neededBy ?? 'nobody has said'],
          [
            'data',
            job.invented
              ? 'invented: every name, number and price in this book is for trying out'
              : 'as told by the person who wrote the job',
          ],
        ],
      },
      ...(cautions.length > 0
        ? [{ k: 'lists' as const, lists: [{ title: 'Cautions, repeated where they stand', items: cautions.map(plain) }] }]
        : []),
      { k: 'head', text: 'In short' },
      {
        k: 'para',
        text: `${built.length} of ${QUESTIONS.length} questions are built and answered here. ${countWords(findings.map((f) => f.verdict))} ${confirm > 0 ? `${confirm} findings rest on rows recalled from memory and are listed under “confirm”.` : ''}`,
      },
      ...(worstFirst(findings)
        .filter((f) => f.verdict === 'fails' || f.verdict === 'unknown')
        .slice(0, 6).length > 0
        ? [
            {
              k: 'table' as const,
              columns: [col('', 24), col('subject', 28), col('what is so', -1)],
              rows: worstFirst(findings)
                .filter((f) => f.verdict === 'fails' || f.verdict === 'unknown')
                .slice(0, 6)
                .map((f) => [marked(f.verdict, f.verdict), f.subject, plain(f.said)]),
            },
          ]
        : []),
    ],
  }
}

export function contentsSheet(): Sheet {
  return {
    part: 'contents',
    head: 'The sheets of this book',
    sub: 'by name and number',
    scale: 'not to scale',
    key: false,
    blocks: [{ k: 'contents' }],
  }
}

/** Sixteen answers in the order of the questions, then every finding, worst first. */
export function answersSheet({ assessment }: BookInput): Sheet {
  const byQuestion = new Map(assessment.questions.map((q) => [q.id, q]))
  return {
    part: 'answers',
    head: 'The sixteen answers',
    sub: 'fails outranks unknown, unknown outranks tight, tight outranks holds',
    scale: 'not to scale',
    key: true,
    blocks: [
      {
        k: 'table',
        columns: [col('question', 22), col('in words', 74), col('answer', 26), col('worst of it', -1)],
        rows: QUESTIONS.map((id) => {
          const answer = byQuestion.get(id)
          const verdict = answer?.verdict ?? 'not built'
          const worst = worstFirst(assessment.findings.filter((f) => f.question === id))[0]
          return [
            [['b', id]],
            QUESTION_WORDS[id],
            verdict === 'not built'
              ? [['quiet', 'not built']]
              : verdict === 'fails'
                ? [['mark', verdict], ' ', ['fails', verdict]]
                : marked(verdict, verdict),
            verdict === 'not built'
              ? ''
              : worst === undefined
                ? 'nothing was judged'
                : worst.verdict === 'holds'
                  ? 'all that was computed holds'
                  : plain(worst.said),
          ]
        }),
      },
      { k: 'head', text: 'Every finding, worst first', note: 'what is tight or holds: one row a kind' },
      {
        k: 'table',
        small: true,
        columns: [col('', 20), col('finding', 33), col('what is so', -1), col('basis', 14), col('rests on', 25)],
        rows: findingRows(assessment.findings),
      },
    ],
  }
}

const findingRows = (findings: readonly Finding[]): readonly (readonly Inline[])[] =>
  findingGroups(findings).map((group) => {
    const { code, subject, basis, provenance, confirm } = group.first
    return [
      group.mark,
      `${code}, ${subject}`,
      groupWords(group, true),
      basis,
      `${provenanceWords(provenance) || provenance}${confirm === true ? ': confirm' : ''}`,
    ]
  })

function countWords(verdicts: readonly string[]): string {
  const count = (which: string): number => verdicts.filter((v) => v === which).length
  return `${verdicts.length} findings: ${count('holds')} hold, ${count('tight')} are tight, ${count('unknown')} are unknown, ${count('fails')} fail.`
}
