import type { Table } from '../../rules/index.ts'
import { billFor, energyMoney } from './bill.ts'
import { deratedSet } from './derate.ts'
import { fuelLPerH } from './fuel.ts'
import { smallestTransformerKVA } from './sizes.ts'

/** Blocks as a case writes them, each with its width; ours say up to where each goes. */
function upTo(blocks: readonly (readonly [number | 'rest', number])[]) {
  let to = 0
  return blocks.map(([width, moneyPerKWh]) => {
    if (width !== 'rest') to += width
    return { upToKWh: width === 'rest' ? null : to, moneyPerKWh }
  })
}

/** A chart of one size in the shape of the table, the quarters not given lying on the line between the ends. */
function chartOf(ratedKW: number, fuel: { readonly quarter: number; readonly full: number }): Table {
  const at = (share: number) => fuel.quarter + ((share - 0.25) / 0.75) * (fuel.full - fuel.quarter)
  const rows = [[ratedKW, fuel.quarter, at(0.5), at(0.75), fuel.full]]
  return {
    id: 'case',
    set: 'common',
    title: 'case',
    units: {},
    columns: ['kW', 'quarter', 'half', 'three_quarter', 'full'],
    rows,
    source: 'case',
    provenance: 'computed',
    address: null,
    notes: [],
  }
}

export const supplyCases: Record<string, (given: any) => Record<string, unknown>> = {
  'sup-01': (given) => {
    const demandKVA = (given.demand_A * given.voltage_V) / 1000
    return { demand_kVA: demandKVA, chosen_kVA: smallestTransformerKVA(demandKVA, given.sizes_kVA, given.allowed_overload) }
  },
  'eng-06': (given) => {
    const chart = chartOf(given.kW_rated, given.fuel_L_h)
    return {
      L_per_kWh: [0.25, 1].map((share) => fuelLPerH(chart, given.kW_rated, share * given.kW_rated) / (share * given.kW_rated)),
    }
  },
  'eng-07': (given) => {
    const peak = { low: given.peak_kW, high: given.peak_kW }
    const bill = billFor(
      {
        energyKWh: given.kWh,
        peakKW: peak,
        peakKVA: peak,
        powerFactorFrac: { low: 1, high: 1 },
        highest11: given.highest_11_months_kW,
      },
      {
        currency: '',
        fixedMoneyPerMonth: given.fixed,
        blocks: upTo(given.blocks),
        demandMoneyPerKW: given.demand_rate,
        demandMoneyPerKVA: null,
        demandWindowMin: 15,
        ratchetFrac: given.ratchet_share,
        powerFactorFloorFrac: null,
        dieselMoneyPerL: null,
      },
    )
    const money = (what: string) => bill.lines.find((l) => l.what === what)?.money?.high
    return {
      energy: money('energy'),
      billed_kW: (money('demand') ?? 0) / given.demand_rate,
      demand: money('demand'),
      total: bill.totalMoney.high,
    }
  },
  'eng-08': (given) => ({
    available_kW: deratedSet(
      { ratedKW: given.rated_kW, ratedKVA: given.rated_kW / 0.8, turbo: false },
      { elevationM: given.elevation_m, hottestC: 25 },
    ).kW.high,
  }),
  'timers-01': ({ power_W, hours, days, per_kWh }) => ({
    money: hours.map((h: number) => energyMoney((power_W / 1000) * h * days, [{ upToKWh: null, moneyPerKWh: per_kWh }])?.money),
  }),
  'bill-year-01': (given) => {
    const month = (of: { kWh: number; peak_kW: number }, highest11: number | null) => {
      const peak = { low: of.peak_kW, high: of.peak_kW }
      return billFor(
        { energyKWh: of.kWh, peakKW: peak, peakKVA: peak, powerFactorFrac: { low: 1, high: 1 }, highest11 },
        {
          ...{ currency: '', fixedMoneyPerMonth: given.fixed, blocks: upTo(given.blocks), demandMoneyPerKW: given.demand_rate },
          ...{ demandMoneyPerKVA: null, demandWindowMin: 15, ratchetFrac: given.ratchet_share, powerFactorFloorFrac: null },
          dieselMoneyPerL: null,
        },
      ).totalMoney.high
    }
    const [winter, summer] = [month(given.winter, null), month(given.summer, given.winter.peak_kW)]
    return {
      ...{ winter_month: winter, summer_month: summer },
      year: given.winter.months * winter + given.summer.months * summer,
    }
  },
}
