import { type Finding, formatNumber, type QuestionId, type Working } from '@plugstead/engine/kernel'
import type { ChangeList } from '@plugstead/engine/plan'
import type { BookContent, Sheet } from './content.ts'
import { onceForPhases } from './phases.ts'
import { questionSheets, type SheetedQuestion } from './question-sheets.ts'
import type { BookInput } from './results.ts'
import { changesSheets } from './sheets/changes.ts'
import { answersSheet, contentsSheet, coverSheet } from './sheets/cover.ts'
import { assumedSheet, confirmSheet, otherWorkingsSheet, symbolsSheet } from './sheets/last.ts'
import { plain } from './words.ts'
import { workingBlocks } from './working-family.ts'

/** The whole job book as content: every word chosen and every number rounded. `bookPdf` sets it. `changes`: of boxes that stand. */
export function bookContent(input: BookInput, changes: readonly ChangeList[] = []): BookContent {
  const { job, design, assessment, rules } = input
  const sheetsOf = questionSheets(input)
  const byQuestion = workingsByQuestion(assessment.workings, assessment.findings)
  const shown = new Set([...byQuestion.values()].flatMap((ws) => ws.map((w) => w.id)))
  const phases = [...new Set(design.boxes.map((b) => b.phase))]
  const withWorkings = (question: SheetedQuestion): readonly Sheet[] => {
    const sheets = onceForPhases(sheetsOf[question](), phases)
    const workings = byQuestion.get(question) ?? []
    const standing = new Set(sheets.flatMap((s) => s.blocks).flatMap((b) => (b.k === 'strip' ? [b.text] : [])))
    const cautions = [
      ...new Set(
        assessment.findings
          .filter((f) => f.question === question)
          .flatMap((f) => (f.caution === undefined ? [] : [plain(f.caution)])),
      ),
    ].filter((text) => !standing.has(text))
    const [first, ...others] = sheets
    const cautioned =
      first === undefined
        ? sheets
        : [{ ...first, blocks: [...cautions.map((text) => ({ k: 'strip' as const, text })), ...first.blocks] }, ...others]
    if (workings.length === 0) return cautioned
    const blocks = workingBlocks(workings, assessment)
    return [
      ...cautioned,
      {
        part: question,
        head: WORKINGS_HEAD[question] ?? 'Workings',
        sub: 'every number, line by line',
        scale: 'not to scale',
        key: true,
        blocks,
      },
    ]
  }
  return {
    title: job.title,
    tag: [
      `${job.invented ? 'invented data; ' : ''}${job.boxes.length === 1 ? '1 box' : `${job.boxes.length} boxes`}, ${[...new Set(job.boxes.map((b) => `${formatNumber(b.lengthFt, { digits: 4, shortest: true })} ft`))].join(' and ')}`,
      `${rules.title}`,
      job.needs.neededBy === null ? 'day needed: not told' : `needed ${job.needs.neededBy}`,
    ],
    rules: `rule set ${rules.id}`,
    sheets: [
      coverSheet(input),
      contentsSheet(),
      answersSheet(input),
      ...changesSheets(changes),
      ...(Object.keys(sheetsOf) as SheetedQuestion[]).flatMap(withWorkings),
      ...otherWorkingsSheet(input, shown),
      assumedSheet(input),
      confirmSheet(input),
      symbolsSheet(input),
    ],
  }
}

const WORKINGS_HEAD: Readonly<Partial<Record<QuestionId, string>>> = {
  needs: 'Workings: what has to run',
  supply: 'Workings: what can feed it',
  dates: 'Workings: by when',
  circuits: 'Workings: who plugs in where',
  reach: 'Workings: volts',
  faults: 'Workings: faults',
  fit: 'Workings: what it hangs on',
  skin: 'Workings: what is cut',
  air: 'Workings: dry, and cool enough',
  haul: 'Workings: lifting, hauling, standing',
  shop: 'Workings: what is bought and sawn',
  money: 'Workings: what it costs and sells for',
}

/** Each working once, with the question of the first finding that names it. */
function workingsByQuestion(
  workings: readonly Working[],
  findings: readonly Finding[],
): ReadonlyMap<QuestionId, readonly Working[]> {
  const questionOf = new Map<string, QuestionId>()
  for (const f of findings) for (const id of f.workings) if (!questionOf.has(id)) questionOf.set(id, f.question)
  const out = new Map<QuestionId, Working[]>()
  for (const w of workings) {
    const question = questionOf.get(w.id)
    if (question === undefined) continue
    out.set(question, [...(out.get(question) ?? []), w])
  }
  return out
}
