import { axisLengthMm, type RacewayRoute } from '../../job/index.ts'

/** What lies in the raceways of one circuit, or of the feed. */
export interface RunLength {
  readonly circuit: string
  /** Along the axes of every raceway it lies in, corner to corner. */
  readonly routeM: number
  /** What current travels one way to the farthest thing: the route and what is left in the boxes. */
  readonly electricalM: number
  /** What is cut of each wire. */
  readonly cutM: number
  /** Boxes in which it ends or passes. */
  readonly boxesCount: number
}

/** Wire left at each end of each raceway, to be stripped, looped and landed. @source the trade's wire allowance. Provenance: common practice */
export const LOOP_M = 0.3
/** Slack along the run. @source the trade's wire allowance. Provenance: common practice */
export const SLACK_FRAC = 0.05

/**
 * Lengths of every circuit by its raceways.
 *
 *   electrical = Σ route + 0.3 m a raceway end;   cut = 1.05 · Σ route + 0.3 m a raceway end
 *
 * @source wire cut = route × 1.05 + 0.3 m each termination. Provenance: common practice
 */
export function runLengths(raceways: readonly RacewayRoute[]): readonly RunLength[] {
  const sums = new Map<string, { routeM: number; ends: number }>()
  for (const r of raceways) {
    const lengthM = axisLengthMm(r.pointsMm) / 1000
    for (const circuit of r.circuits) {
      const had = sums.get(circuit) ?? { routeM: 0, ends: 0 }
      sums.set(circuit, { routeM: had.routeM + lengthM, ends: had.ends + 2 })
    }
  }
  return [...sums]
    .map(([circuit, { routeM, ends }]) => ({
      circuit,
      routeM,
      electricalM: routeM + ends * LOOP_M,
      cutM: (1 + SLACK_FRAC) * routeM + ends * LOOP_M,
      boxesCount: ends / 2 + 1,
    }))
    .toSorted((a, b) => (a.circuit < b.circuit ? -1 : 1))
}
