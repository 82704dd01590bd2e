import type { Entry, EntryPlate, Span } from '../job/index.ts'
import { acrossMm, ENTRIES, ENTRY_EDGE_MM, ENTRY_GAP_MM, type EntrySize, entryFor } from './entry.ts'

export interface PlateCord {
  readonly plug: string
  readonly cordMm: Span
}

/** A cord no gland of the table takes. */
export interface NoEntry {
  readonly plug: string
  readonly cordMm: Span
  readonly widestMm: number
}

/** Spare entries of the commonest size, as a share of the used ones. House rule. */
const SPARE_FRAC = 0.25
const STEEL_MM = 3
/** Widest plate: what a person still lifts out, and what a frame spans without a mullion. House rule. */
const MOST_WIDE_MM = 500

/**
 * A framed plate with split glands for these cords: thick ones below, thin above, in rows as wide as the plate, spare ones plugged. The
 * frame's cut-out counts as one opening. Cords that no gland takes come back by name.
 */
export function plateFor(
  cords: readonly PlateCord[],
  mostWideMm = MOST_WIDE_MM,
): { readonly plate: EntryPlate | null; readonly without: readonly NoEntry[] } {
  const without: NoEntry[] = []
  const wanted: { plug: string | null; size: EntrySize; cordMm: Span | null }[] = []
  for (const cord of cords) {
    const size = entryFor(cord.cordMm).value.chosen
    if (size === null) without.push({ ...cord, widestMm: ENTRIES[ENTRIES.length - 1]!.mostMm })
    else wanted.push({ plug: cord.plug, size, cordMm: cord.cordMm })
  }
  if (wanted.length === 0) return { plate: null, without }
  const common = commonest(wanted.map((w) => w.size))
  for (let i = 0; i < Math.ceil(SPARE_FRAC * wanted.length); i++) wanted.push({ plug: null, size: common, cordMm: null })
  const order = wanted.toSorted((a, b) => b.size.threadMm - a.size.threadMm || ((a.plug ?? '~') < (b.plug ?? '~') ? -1 : 1))
  const rows: { tallMm: number; wideMm: number; of: typeof order }[] = []
  for (const w of order) {
    const d = acrossMm(w.size.threadMm)
    const row = rows[rows.length - 1]
    if (row !== undefined && 2 * ENTRY_EDGE_MM + row.wideMm + ENTRY_GAP_MM + d <= mostWideMm) {
      row.of.push(w)
      row.wideMm += ENTRY_GAP_MM + d
    } else rows.push({ tallMm: d, wideMm: d, of: [w] })
  }
  const widthMm = 2 * ENTRY_EDGE_MM + Math.max(...rows.map((r) => r.wideMm))
  const heightMm = 2 * ENTRY_EDGE_MM + rows.reduce((sum, r) => sum + r.tallMm, 0) + (rows.length - 1) * ENTRY_GAP_MM
  const entries: Entry[] = []
  let low = ENTRY_EDGE_MM
  for (const row of rows) {
    let left = (widthMm - row.wideMm) / 2
    for (const w of row.of) {
      const d = acrossMm(w.size.threadMm)
      entries.push({
        plug: w.plug,
        thread: w.size.thread,
        split: true,
        uMm: left + d / 2,
        vMm: low + row.tallMm / 2,
        cordMm: w.cordMm,
      })
      left += d + ENTRY_GAP_MM
    }
    low += row.tallMm + ENTRY_GAP_MM
  }
  return { plate: { thicknessMm: STEEL_MM, widthMm, heightMm, entries }, without }
}

function commonest(sizes: readonly EntrySize[]): EntrySize {
  const counts = new Map<EntrySize, number>()
  for (const s of sizes) counts.set(s, (counts.get(s) ?? 0) + 1)
  return [...counts].toSorted((a, b) => b[1] - a[1] || a[0].threadMm - b[0].threadMm)[0]![0]
}
