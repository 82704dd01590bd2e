import { axisLengthMm, type FitDesign, wirewayPieces, wirewayRuns } from '../../job/index.ts'

/** What lies in the raceways of one circuit, or of the feed. */
export interface RunLength {
  readonly circuit: string
  /** Along the axes of every raceway it lies in, corner to corner, and along the wireway. */
  readonly routeM: number
  /** What current travels one way to the farthest thing: the route and what is left in the boxes. */
  readonly electricalM: number
  /** What is cut of each wire. */
  readonly cutM: number
  /** Ends of its raceways at which a loop is left. */
  readonly endsCount: number
}

/** Wire left at each end of each raceway, to be stripped, looped and landed. @source the trade's wire allowance. Provenance: common practice */
export const LOOP_M = 0.3
/** Slack along the run. @source the trade's wire allowance. Provenance: common practice */
export const SLACK_FRAC = 0.05

/**
 * Lengths of every circuit by its raceways, and by what it takes of the wireway. In a wireway a wire is laid through, without a loop.
 *
 *   electrical = Σ route + 0.3 m a raceway end;   cut = 1.05 · Σ route + 0.3 m a raceway end
 *
 * @source wire cut = route × 1.05 + 0.3 m each termination. Provenance: common practice
 */
export function runLengths(fit: Pick<FitDesign, 'items' | 'raceways'>): readonly RunLength[] {
  const troughs = new Set(wirewayPieces(fit.items).map((p) => p.id))
  const sums = new Map<string, { routeM: number; ends: number }>()
  const add = (circuit: string, lengthM: number, ends: number) => {
    const had = sums.get(circuit) ?? { routeM: 0, ends: 0 }
    sums.set(circuit, { routeM: had.routeM + lengthM, ends: had.ends + ends })
  }
  for (const r of fit.raceways) {
    const lengthM = axisLengthMm(r.pointsMm) / 1000
    const ends = [r.from, r.to].filter((id) => !troughs.has(id)).length
    for (const circuit of r.circuits) add(circuit, lengthM, ends)
  }
  for (const { circuit, fromMm, toMm } of wirewayRuns(fit)) add(circuit, (toMm - fromMm) / 1000, 0)
  return [...sums]
    .map(([circuit, { routeM, ends }]) => ({
      circuit,
      routeM,
      electricalM: routeM + ends * LOOP_M,
      cutM: (1 + SLACK_FRAC) * routeM + ends * LOOP_M,
      endsCount: ends,
    }))
    .toSorted((a, b) => (a.circuit < b.circuit ? -1 : 1))
}
