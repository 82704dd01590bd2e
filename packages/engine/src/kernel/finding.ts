import type { Provenance } from './provenance.ts'
import type { Put } from './working.ts'

export const QUESTIONS = [
  'needs',
  'place',
  'supply',
  'papers',
  'dates',
  'circuits',
  'reach',
  'faults',
  'fit',
  'skin',
  'air',
  'haul',
  'shop',
  'money',
  'energise',
  'keep',
] as const
export type QuestionId = (typeof QUESTIONS)[number]

/** Questions that are built. The others say `not built`, in words, everywhere. */
export const BUILT: ReadonlySet<QuestionId> = new Set<QuestionId>([
  'needs',
  'supply',
  'dates',
  'circuits',
  'reach',
  'faults',
  'fit',
  'skin',
  'air',
  'haul',
  'shop',
  'money',
])

/** The sixteen questions in words. */
export const QUESTION_WORDS: Readonly<Record<QuestionId, string>> = {
  needs: 'What has to run, and when?',
  place: 'Where does the box stand, and is that wise?',
  supply: 'What can feed it?',
  papers: 'What is this box in the eyes of the rules, and who must agree?',
  dates: 'By when, and what must start today?',
  circuits: 'Who plugs in where?',
  reach: 'Does it still work at the end of the cord?',
  faults: 'What happens when something goes wrong?',
  fit: 'Does it fit, and what does it hang on?',
  skin: 'What do we cut in the box?',
  air: 'Will it stay dry, and cool enough?',
  haul: 'What do lifting, hauling and setting down ask for?',
  shop: 'What do we buy, cut and do?',
  money: 'What does it cost, sell for, rent for?',
  energise: 'What must be proved before it is switched on?',
  keep: 'Is it still good, and where next?',
}

export type Verdict = 'holds' | 'tight' | 'fails' | 'unknown'
export type Basis = 'code' | 'maker' | 'physics' | 'house'

/** A change to the job document that `assess` can try: set the choice at `path` to `value`. */
export interface Mend {
  /** Path under `choices`: `cords.G4C.size`, `service.ratingA`. */
  readonly path: string
  readonly value: string | number | boolean
  /** What the change is, in words: “12 AWG cord instead of 14 AWG”. */
  readonly words: string
  /** Set once the mend was tried: the finding's verdict with it, other questions that moved, and money. */
  readonly tried?: { readonly verdict: Verdict; readonly moved: readonly string[]; readonly moneyDelta: number | null }
}

/** One answer of the program, as data. Words and display units are made at the edge. */
export interface Finding {
  /** `question/what`, stable, documented in docs/findings.md: `reach/drop`, `faults/interrupting`. */
  readonly code: string
  readonly question: QuestionId
  /** Tag of the thing it is about: a plug, circuit, panel, offer, or `job`. */
  readonly subject: string
  readonly verdict: Verdict
  readonly basis: Basis
  /** One plain sentence with numbers, in SI display units: “17.4 kA may flow here; its breakers interrupt 10 kA.” */
  readonly said: string
  readonly demand?: Put
  readonly limit?: Put
  /** Weakest provenance among inputs and limits. */
  readonly provenance: Provenance
  /** True when a row from memory decides on shock, fire, fault, lift or demand: “confirm in the book”. */
  readonly confirm?: boolean
  /** Paths of assumed values it rests on. */
  readonly assumed: readonly string[]
  /** Ids of workings. */
  readonly workings: readonly string[]
  readonly mends: readonly Mend[]
  /** The role that decides beyond what was computed: “the inspector”. */
  readonly decides?: string
  /** A caution that stands where the finding stands. */
  readonly caution?: string
}

const RANK: Record<Verdict, number> = { holds: 0, tight: 1, unknown: 2, fails: 3 }

/** `fails` outranks `unknown`, `unknown` outranks `tight`, `tight` outranks `holds`. None: `holds` would be a lie, so `unknown`. */
export function worst(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.length === 0) return 'unknown'
  return verdicts.reduce((a, b) => (RANK[b] > RANK[a] ? b : a))
}

/**
 * Judges a demand against an upper limit. `tightFrac`: share of the limit below it that counts as tight (0.1: from 90 % on); 0 for none.
 * A number that is not finite is `unknown`: something above it was missing.
 */
export function judgeUpper(demand: number, limit: number, tightFrac = 0.1): Verdict {
  if (!Number.isFinite(demand) || Number.isNaN(limit)) return 'unknown'
  if (demand > limit * (1 + EXACT)) return 'fails'
  return demand > limit * (1 - tightFrac) && tightFrac > 0 ? 'tight' : 'holds'
}

/** As `judgeUpper`, for a lower limit: value must not fall below it. */
export function judgeLower(value: number, limit: number, tightFrac = 0.1): Verdict {
  if (!Number.isFinite(value) || Number.isNaN(limit)) return 'unknown'
  if (value < limit * (1 - EXACT)) return 'fails'
  return value < limit * (1 + tightFrac) && tightFrac > 0 ? 'tight' : 'holds'
}

/** Judged at both ends of a bounded input: the same word at both ends stands; fails at one end only is `unknown`. */
export function judgeEnds(low: Verdict, high: Verdict): Verdict {
  if (low === high) return low
  if (low === 'fails' || high === 'fails') return 'unknown'
  return worst([low, high])
}

/** Sums of printed figures differ in the last bits; no verdict hangs on them. */
const EXACT = 1e-9
