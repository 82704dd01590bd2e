import type { Assessment } from '@plugstead/engine/assess'
import { assumedWords, type Job } from '@plugstead/engine/job'
import { type Finding, QUESTION_WORDS, type Verdict } from '@plugstead/engine/kernel'
import { table } from './table.ts'
import { labelled, wrapped } from './wrap.ts'

export function headText(job: Job): string {
  const { set, edition, overlays } = job.rules
  const rules = [`rules ${set}`, ...(edition === null ? [] : [edition]), ...overlays].join(', ')
  const things = [count(job.plugs.length, 'plug'), count(job.boxes.length, 'box', 'boxes'), count(job.phases.length, 'phase')]
  return [wrapped(job.title + (job.invented ? ' (invented)' : '')), wrapped([rules, job.system, ...things].join(' · '))].join(
    '\n',
  )
}

/** Verdict of each of the sixteen questions. */
export function questionsText(assessment: Assessment): string {
  const rows = assessment.questions.map(({ id, verdict }) => {
    const own = assessment.findings.filter((finding) => finding.question === id)
    const bad = own.filter((finding) => finding.verdict === verdict && verdict !== 'holds').length
    return [id, verdict, bad === 0 ? '' : String(bad), QUESTION_WORDS[id]]
  })
  return table(
    [{ head: 'question' }, { head: 'answer' }, { head: 'findings', side: 'right' }, { head: 'asks', wraps: true }],
    rows,
  )
}

/** Findings that do not plainly hold, worst first; those that hold are counted. */
export function findingsText({ findings, assumed }: Pick<Assessment, 'findings' | 'assumed'>): string {
  const shown = ORDER.flatMap((verdict) => findings.filter((finding) => finding.verdict === verdict))
  const holding = findings.length - shown.length
  const last = holding === 0 ? [] : [`${holding} more ${holding === 1 ? 'finding holds' : 'findings hold'}.`]
  return [...shown.map((one) => findingText(one, assumed)), ...last].join('\n')
}

const ORDER: readonly Verdict[] = ['fails', 'unknown', 'tight']
const HANG = 9

function findingText(finding: Finding, assumed: Assessment['assumed']): string {
  const row = (label: string, text: string) => wrapped(`${label} ${text}`, { indent: HANG, hang: HANG + label.length + 1 })
  return [
    labelled(finding.verdict, `${finding.subject}, ${finding.code} (${finding.basis})`, HANG),
    wrapped(finding.said, { indent: HANG }),
    ...(finding.caution === undefined ? [] : [row('caution', finding.caution)]),
    ...(finding.decides === undefined ? [] : [row('not yet decided by', finding.decides)]),
    ...(finding.confirm ? [row('confirm', 'in the book: a row from memory decides here')] : []),
    ...(finding.assumed.length === 0
      ? []
      : [
          row(
            'assumed',
            assumedWords(finding.assumed, assumed)
              .map(({ said, path }) => (said === path ? path : `${said} (${path})`))
              .join('; '),
          ),
        ]),
    ...finding.mends.map((mend) => row('mend', `${mend.words} (${mend.path}: ${mend.value}${triedText(mend.tried)})`)),
    ...(finding.workings.length === 0 ? [] : [row('working', finding.workings.join(', '))]),
  ].join('\n')
}

function triedText(tried: Finding['mends'][number]['tried']): string {
  if (tried === undefined) return ''
  const moved = tried.moved.length === 0 ? '' : `; moves ${tried.moved.join(', ')}`
  const money =
    tried.moneyDelta === null
      ? ''
      : `; material ${tried.moneyDelta >= 0 ? '+' : '−'}${Math.abs(Math.round(tried.moneyDelta))} by the shop’s prices`
  return `; tried: ${tried.verdict}${moved}${money}`
}

export function assumedText(assessment: Assessment): string {
  return assessment.assumed
    .map(({ path, said, source }) => wrapped(`${path}: ${said} (${source})`, { indent: 2, hang: 4 }))
    .join('\n')
}

export const CAUTION = `A design aid. Local codes and the authority having jurisdiction decide; a
licensed person must check and do the work.`

export function assessmentText(job: Job, assessment: Assessment): string {
  return [
    questionsText(assessment),
    ...(assessment.findings.length === 0 ? [] : [`Findings\n\n${findingsText(assessment)}`]),
    ...(assessment.assumed.length === 0
      ? []
      : [`Assumed, for nobody said (tell it in the job to replace it)\n\n${assumedText(assessment)}`]),
    ...(job.unused.length === 0 ? [] : [wrapped(`Read and kept, used by no question yet: ${job.unused.join(', ')}`)]),
    CAUTION,
  ].join('\n\n')
}

export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`
}
