import { axisLengthMm, type BoxDesign, type FitDesign, wirewayPieces, wirewayRuns } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { wiresOf } from '../routes/links.ts'

/**
 * Raceways, their connectors, their wires and the wireway by the shop's prices; what has no price counts nothing.
 *
 *   Σ L·(raceway + wires) + 2·connector for each raceway; wireway by the metre; wires of each circuit along it
 */
export function ledMoney(
  fit: Pick<FitDesign, 'items' | 'raceways'>,
  design: Pick<BoxDesign, 'circuits'>,
  prices: Prices,
): number {
  const price = (id: string): number => (Object.hasOwn(prices.rows, id) ? (prices.rows[id]?.money ?? 0) : 0)
  let sum = 0
  for (const r of fit.raceways) {
    const wires = r.conductors.reduce((all, c) => all + c.count * price(`conductor/${c.size}/cu`), 0)
    sum += (axisLengthMm(r.pointsMm) / 1000) * (price(`raceway/${r.kind}/${r.trade}`) + wires)
    sum += 2 * price(`connector/${r.kind}/${r.trade}`)
  }
  for (const run of wirewayRuns(fit)) {
    const circuit = design.circuits.find((c) => c.id === run.circuit)
    if (circuit === undefined) continue
    const wires = wiresOf(circuit.run, circuit.legs.length).reduce((all, w) => all + price(`conductor/${w.size}/${w.metal}`), 0)
    sum += ((run.toMm - run.fromMm) / 1000) * wires
  }
  return sum + piecesMoney(fit, prices)
}

/** The wireway alone, by the metre. */
export function piecesMoney({ items }: Pick<FitDesign, 'items'>, prices: Prices): number {
  return wirewayPieces(items).reduce((sum, p) => {
    const row = prices.rows[`raceway/${p.part.replace(' ', '/')}`]
    return sum + ((row?.money ?? 0) * Math.max(p.sizeMm[0], p.sizeMm[1])) / 1000
  }, 0)
}
