import type { BoxDesign, Design, Plug } from '../../job/index.ts'
import type { Finding } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import type { BoxLoad, StagingResult } from '../staging/index.ts'
import type { BoxDemand } from './demand.ts'

/** What the findings of one box and phase are made from. */
export interface BoxFacts {
  readonly subject: string
  readonly box: BoxDesign
  /** This box and those fed from it, in the same phase. */
  readonly behind: readonly BoxDesign[]
  readonly loads: readonly BoxLoad[]
  readonly plugs: readonly Plug[]
  readonly rules: RuleSet
  readonly staging: StagingResult
  readonly worked: BoxDemand
}

type Said = Pick<Finding, 'code' | 'subject' | 'verdict' | 'basis' | 'said' | 'provenance'> & Partial<Finding>

export const found = (finding: Said): Finding => ({ question: 'needs', assumed: [], workings: [], mends: [], ...finding })

/** Box alone, or with its phase where the design has it in more than one. */
export const subjectOf = (design: Design, box: Pick<BoxDesign, 'box' | 'phase'>): string =>
  design.boxes.filter((b) => b.box === box.box).length > 1 ? `${box.box} ${box.phase}` : box.box

/** Numbers in a sentence: three digits, no trailing noise. */
export function shown(value: number): string {
  if (!Number.isFinite(value)) return 'unknown'
  const size = Math.abs(value)
  return String(size >= 100 ? Math.round(value) : size >= 10 ? Math.round(value * 10) / 10 : Math.round(value * 100) / 100)
}

export const clock = (hour: number): string => {
  const minutes = Math.round((((hour % 24) + 24) % 24) * 60) % 1440
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
}
