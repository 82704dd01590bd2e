import type { Tariff } from '../../job/index.ts'
import { both, type Ends, ends } from '../needs/index.ts'
import type { Bill, BillLine } from './result.ts'

export interface Metered {
  readonly energyKWh: number
  /** Highest mean over the demand window. */
  readonly peakKW: Ends
  readonly peakKVA: Ends
  readonly powerFactorFrac: Ends
  /** Highest billed kW (or kVA) of the eleven months before; null: none known, this month's peak stands. */
  readonly highest11: number | null
}

const round = (value: number): string => String(Math.round(value * 100) / 100)

/** Money of a month's energy by blocks, each up to its limit, the last open. Null: no price, or energy beyond the last limit. */
export function energyMoney(
  energyKWh: number,
  blocks: Tariff['blocks'],
): { readonly money: number; readonly said: string } | null {
  if (blocks.length === 0) return null
  let from = 0
  let money = 0
  const said: string[] = []
  for (const block of blocks) {
    const to = block.upToKWh ?? Infinity
    const here = Math.max(0, Math.min(energyKWh, to) - from)
    from = Math.max(from, to)
    if (here === 0) continue
    money += here * block.moneyPerKWh
    said.push(`${round(here)} kWh × ${block.moneyPerKWh}`)
  }
  return energyKWh > from ? null : { money, said: said.join(' + ') || '0 kWh' }
}

/**
 * Bill of one month: fixed + energy by blocks + demand (mean over the window, never below the ratchet's share of the highest of eleven
 * months) + power factor below the floor (billed kW × floor/pf). A starting current does not count: the meter takes means.
 * A part that the tariff does not state is null, and the total is then a floor.
 * @source shape of a tariff, table `tariff`. Provenance: common practice
 */
export function billFor(metered: Metered, tariff: Tariff): Bill {
  const lines: BillLine[] = []
  lines.push({
    what: 'fixed',
    said: tariff.fixedMoneyPerMonth === null ? 'not stated' : 'a month',
    money: tariff.fixedMoneyPerMonth === null ? null : both(tariff.fixedMoneyPerMonth),
  })
  const energy = energyMoney(metered.energyKWh, tariff.blocks)
  lines.push({ what: 'energy', said: energy?.said ?? 'not stated', money: energy === null ? null : both(energy.money) })
  lines.push(...demandLines(metered, tariff))
  const known = lines.flatMap((line) => (line.money === null ? [] : [line.money]))
  return {
    currency: tariff.currency,
    energyKWh: metered.energyKWh,
    peakKW: metered.peakKW.high,
    peakKVA: metered.peakKVA,
    lines,
    totalMoney: { low: known.reduce((sum, m) => sum + m.low, 0), high: known.reduce((sum, m) => sum + m.high, 0) },
    complete: lines.every((line) => line.money !== null),
  }
}

/** What is billed: the window mean, or the ratchet's share of what stood before. */
export const billedDemand = (peak: number, ratchetFrac: number, highest11: number | null): number =>
  Math.max(peak, ratchetFrac * (highest11 ?? 0))

function demandLines(metered: Metered, tariff: Tariff): BillLine[] {
  const { demandMoneyPerKW: perKW, demandMoneyPerKVA: perKVA, ratchetFrac, powerFactorFloorFrac: floor } = tariff
  if (perKW === null && perKVA === null) return [{ what: 'demand', said: 'not stated', money: null }]
  const lines: BillLine[] = []
  const part = (peak: Ends, rate: number, unit: string): void => {
    const billed = {
      low: billedDemand(peak.low, ratchetFrac, metered.highest11),
      high: billedDemand(peak.high, ratchetFrac, metered.highest11),
    }
    const amount = billed.low === billed.high ? round(billed.low) : `${round(billed.low)} to ${round(billed.high)}`
    lines.push({
      what: 'demand',
      said: `${amount} ${unit} × ${rate}, mean of ${tariff.demandWindowMin} min`,
      money: { low: billed.low * rate, high: billed.high * rate },
    })
  }
  if (perKW !== null) part(metered.peakKW, perKW, 'kW')
  if (perKVA !== null) part(metered.peakKVA, perKVA, 'kVA')
  if (floor !== null && perKW !== null) {
    const more = (pf: number, kW: number) =>
      pf < floor ? billedDemand(kW, ratchetFrac, metered.highest11) * (floor / pf - 1) * perKW : 0
    const money = ends(
      more(metered.powerFactorFrac.high, metered.peakKW.low),
      more(metered.powerFactorFrac.low, metered.peakKW.high),
    )
    lines.push({ what: 'power factor', said: `billed kW × (${floor}/pf − 1) below ${floor}`, money })
  }
  return lines
}
