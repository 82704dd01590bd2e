import { Fault, type Provenance, type Source, source } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

type FigureName = (typeof tables)['dates-figures']['rows'][number][0]
export type LeadName = (typeof tables)['lead-times']['rows'][number][0]

/** A single figure of the chain, in the unit its row prints. @throws Fault `dates/no-figure` */
export function figure(name: FigureName): number {
  const row = tables['dates-figures'].rows.find(([one]) => one === name)
  if (row === undefined) throw new Fault('dates/no-figure', name)
  return row[1]
}

export interface Lead {
  readonly low: number
  readonly likely: number
  readonly high: number
  readonly unit: 'working days' | 'days'
  readonly rests: Source
}

export const isLeadName = (name: string): name is LeadName => tables['lead-times'].rows.some(([one]) => one === name)

/** What a task takes when nobody told. @throws Fault `dates/no-lead` */
export function usualLead(name: LeadName): Lead {
  const row = tables['lead-times'].rows.find(([one]) => one === name)
  if (row === undefined) throw new Fault('dates/no-lead', name)
  const [, low, likely, high, unit, said] = row
  return { low, likely, high, unit, rests: source(`table lead-times, ${name}`, firmness(said)) }
}

/** The weakest word in what a row says of its own firmness. */
const firmness = (said: string): Provenance =>
  said.includes('memory') ? 'memory' : said.includes('common practice') ? 'common practice' : 'read'
