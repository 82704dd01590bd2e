import type { FitDesign } from '../job/index.ts'
import { byText } from './figures.ts'
import type { KnockoutRow } from './result.ts'
import { tables } from './tables.generated.ts'

/** Which hole each enclosure needs for the raceways that end in it, most first. Where no table knows the size it is measured at the connector. */
export function knockouts(fit: Pick<FitDesign, 'items' | 'raceways'>): readonly KnockoutRow[] {
  const items = new Set(fit.items.map((i) => i.id))
  const ends = fit.raceways.flatMap((r) =>
    [r.from, r.to].filter((id) => items.has(id)).map((item) => ({ item, kind: r.kind, trade: r.trade, raceway: r.id })),
  )
  return [...Map.groupBy(ends, (e) => `${e.item}|${e.kind}|${e.trade}`).values()]
    .map((all): KnockoutRow => {
      const { item, kind, trade } = all[0]!
      const row = tables['knock-out'].rows.find(([size]) => size === trade)
      const hole = row === undefined ? null : { nominalMm: row[1], leastMm: row[2], mostMm: row[3] }
      return { item, kind, trade, count: all.length, hole, raceways: all.map((e) => e.raceway).toSorted(byText) }
    })
    .toSorted((a, b) => byText(a.item, b.item) || b.count - a.count || byText(a.trade, b.trade))
}
