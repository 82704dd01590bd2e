import { VERSION } from '@plugstead/engine/answer'
import type { ChangeList } from '@plugstead/engine/plan'
import { billCsv, costCsv, cutsCsv, hoursCsv, openingsCsv, racewaysCsv, strutCsv, ventsCsv, wiresCsv } from './build-csv.ts'
import { changesCsv, circuitsCsv, cordsCsv, panelCsv } from './csv.ts'
import { datesCsv } from './dates-csv.ts'
import { datesIcs } from './dates-ics.ts'
import type { BookInput } from './results.ts'

/** A file of a job, made when it is asked for. */
export interface JobFile {
  /** What stands behind the job's name: `panel.csv`. */
  readonly kind: string
  make(): string | Uint8Array
}

/** Design, findings and lists of a judged job. Lists of the steel only where a box is built, changes only where one stands. */
export function jobLists(input: BookInput, changes: readonly ChangeList[]): readonly JobFile[] {
  const { design, assessment } = input
  const { questions, findings, assumed, workings, results } = assessment
  return [
    { kind: 'design.json', make: () => json({ plugstead: VERSION, design }) },
    { kind: 'findings.json', make: () => json({ plugstead: VERSION, questions, findings, assumed, workings }) },
    { kind: 'panel.csv', make: () => panelCsv(assessment) },
    { kind: 'circuits.csv', make: () => circuitsCsv(assessment) },
    { kind: 'cords.csv', make: () => cordsCsv(assessment) },
    ...(design.builds.length === 0
      ? []
      : [
          { kind: 'openings.csv', make: () => openingsCsv(assessment, design) },
          { kind: 'strut.csv', make: () => strutCsv(design) },
          { kind: 'raceways.csv', make: () => racewaysCsv(assessment, design) },
        ]),
    ...((results.air?.boxes.length ?? 0) === 0 ? [] : [{ kind: 'vents.csv', make: () => ventsCsv(input) }]),
    ...(results.shop.boxes.length === 0
      ? []
      : [
          { kind: 'wires.csv', make: () => wiresCsv(assessment) },
          { kind: 'cuts.csv', make: () => cutsCsv(assessment) },
          { kind: 'bill.csv', make: () => billCsv(assessment) },
          { kind: 'hours.csv', make: () => hoursCsv(assessment) },
          { kind: 'cost.csv', make: () => costCsv(assessment) },
        ]),
    ...(changes.length === 0 ? [] : [{ kind: 'changes.csv', make: () => changesCsv(changes) }]),
  ]
}

/** The dated chain for a calendar and as a list. */
export function dateLists({ job, assessment }: Pick<BookInput, 'job' | 'assessment'>): readonly JobFile[] {
  const { dates } = assessment.results
  return [
    { kind: 'ics', make: () => datesIcs(job, dates) },
    { kind: 'dates.csv', make: () => datesCsv(dates) },
  ]
}

const json = (value: object): string => `${JSON.stringify(value, null, 2)}\n`
