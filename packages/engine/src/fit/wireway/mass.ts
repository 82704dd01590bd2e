import {
  alongWirewayMm,
  type Circuit,
  type FitDesign,
  type PlacedItem,
  type PointMm,
  wirewayPieces,
  wirewayRuns,
} from '../../job/index.ts'
import { wirewayPart, wirewaySizes } from '../../parts/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { wiresOf } from '../routes/links.ts'

/** Mass of a wire over that of its bare copper: insulation. @source planning figure. Provenance: common practice */
const OVER_COPPER = { low: 1.1, high: 1.3 }
/** @source density of copper, 8890 kg/m³ (IEC 60028). Provenance: memory */
const COPPER_KG_PER_M_MM2 = 0.00889

/** A layout whose wireway weighs what it and the wires in it do. */
export function weighed(fit: FitDesign, circuits: readonly Circuit[], rules: Pick<RuleSet, 'id' | 'sizes'>): FitDesign {
  const pieces = wirewayPieces(fit.items)
  if (pieces.length === 0) return fit
  const runs = wirewayRuns(fit)
  const copper = new Map(
    circuits.map((c) => [
      c.id,
      wiresOf(c.run, c.legs.length).reduce(
        (sum, w) => sum + (rules.sizes.find((s) => s.name === w.size)?.areaMm2 ?? 0) * COPPER_KG_PER_M_MM2,
        0,
      ),
    ]),
  )
  const items = fit.items.map((item): PlacedItem => {
    if (!pieces.includes(item)) return item
    const size = wirewaySizes(rules.id).find((s) => `wireway ${s.trade}` === item.part)
    if (size === undefined) return item
    const [low, high] = spanMm(fit.items, item)
    const wires = runs.reduce(
      (sum, r) => sum + ((copper.get(r.circuit) ?? 0) * Math.max(0, Math.min(r.toMm, high) - Math.max(r.fromMm, low))) / 1000,
      0,
    )
    const bare = wirewayPart(size, Math.max(item.sizeMm[0], item.sizeMm[1])).massKg
    return {
      ...item,
      massKg: {
        ...bare,
        low: bare.low + OVER_COPPER.low * wires,
        high: bare.high + OVER_COPPER.high * wires,
        basis: `${bare.basis}, and the copper of its wires`,
      },
    }
  })
  return { ...fit, items }
}

/** From where to where a piece reaches, along the whole wireway. */
export function spanMm(items: readonly PlacedItem[], piece: PlacedItem): readonly [number, number] {
  const [x, y, z] = piece.atMm
  const ends: readonly PointMm[] = [piece.atMm, [x + piece.sizeMm[0], y + piece.sizeMm[1], z]]
  const at = ends.map((p) => alongWirewayMm(items, piece, p))
  return [Math.min(...at), Math.max(...at)]
}
