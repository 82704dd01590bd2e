/**
 * How firm a number is. `computed`: worked out from a formula of physics; `told`: the person who wrote the job said so;
 * `measured`: found on the thing itself, by whom and on which day;
 * `read`: seen in a public document; `common practice`: a trade rule without a publication; `assumed`: a recorded default;
 * `memory`: recalled from the named standard, to be confirmed.
 */
export type Provenance = 'computed' | 'told' | 'measured' | 'read' | 'common practice' | 'assumed' | 'memory'

const ORDER: readonly Provenance[] = ['computed', 'told', 'measured', 'read', 'common practice', 'assumed', 'memory']

/** The weakest of several provenances: a result is only as firm as its softest input. Empty: `computed`. */
export function weakest(...all: readonly Provenance[]): Provenance {
  let worst = 0
  for (const p of all) worst = Math.max(worst, ORDER.indexOf(p))
  return ORDER[worst] ?? 'computed'
}

/** Where a number comes from: a clause, a table row, a fact and who told it, or another working. */
export interface Source {
  /** As cited on paper: “NEC Table 310.16”, “IEC 60364-5-52 Table B.52.4”, “element's plate”, “Ohm's law”. */
  readonly place: string
  readonly provenance: Provenance
  /** Only where the row is of another edition than the rule set's own. */
  readonly edition?: string
}

export const source = (place: string, provenance: Provenance, edition?: string): Source =>
  edition === undefined ? { place, provenance } : { place, provenance, edition }
