import type { AirDesign } from '../../job/index.ts'
import { put, source, step, type Working } from '../../kernel/index.ts'
import { fanPriced, heatersPriced, type Prices, sizeUp } from '../../parts/index.ts'
import type { Trade } from '../../shop/result.ts'
import type { Paints } from '../facts/paint.ts'
import { numberIn, rowOf, wordsIn } from '../shelf.ts'
import type { MeasureAreas } from './areas.ts'
import type { MeasureLine, MeasuresCost } from './result.ts'

export interface MeasuresTask {
  readonly box: string
  readonly air: AirDesign
  readonly areas: MeasureAreas
  /** Paint that the box gets anyway: a coat is a measure where it differs. */
  readonly painted: Paints
  readonly prices: Prices
}

/** Sizes that are priced: a measure takes the next larger, beyond the largest that one. */
const FOAM_MM = [25, 50, 75, 100]
const VENT_M2 = [0.05, 0.1, 0.25, 0.5, 1]
const SOLAR_W = [12, 25, 50]

/** Coats by what they cost. A sheet's own zinc or rust is no coat, and nobody paints a box with dirt: no price. */
function coatOf(paint: string): string {
  if (/TiO2|fluoropolymer/.test(paint)) return 'paint/reflecting'
  if (/^(white|light grey)/.test(paint) && !/soiled/.test(paint)) return 'paint/light'
  if (/^(galvanised|Al-Zn|weathering steel|same|white paint, soiled)/.test(paint)) return 'paint/none'
  return 'paint/colour'
}

interface Wanted {
  readonly measure: string
  readonly id: string
  readonly quantity: number
  readonly billed?: true
  /** Thickness of foam, whose mass goes by it. */
  readonly foamM?: number
}

function wantedOf({ air, areas, painted }: MeasuresTask): readonly Wanted[] {
  const foam = (measure: string, thickM: number, quantity: number): readonly Wanted[] =>
    thickM > 0 ? [{ measure, id: `foam/${sizeUp(FOAM_MM, thickM * 1000)} mm`, quantity, foamM: thickM }] : []
  const bare = (air.roofFoamM > 0 ? areas.roofBareM2 : 0) + (air.wallFoamM > 0 ? areas.wallsBareM2 : 0)
  const { fan, heater } = air
  const vents = air.vents.filter((v) => !v.fan)
  const each = (measure: string, id: string, billed?: true): Wanted => ({
    ...{ measure, id, quantity: 1 },
    ...(billed === undefined ? {} : { billed }),
  })
  return [
    ...(air.roofPaint === painted.roof ? [] : [{ measure: 'roof-paint', id: coatOf(air.roofPaint), quantity: areas.roofOutM2 }]),
    ...(air.wallPaint === painted.walls
      ? []
      : [{ measure: 'wall-paint', id: coatOf(air.wallPaint), quantity: areas.wallsOutM2 }]),
    ...foam('roof-foam', air.roofFoamM, areas.roofInM2),
    ...foam('wall-foam', air.wallFoamM, areas.wallsInM2),
    ...(air.bridgesFoamed ? foam('bridges-foamed', Math.max(air.roofFoamM, air.wallFoamM), bare) : []),
    ...(air.secondRoof ? [{ measure: 'second-roof', id: 'second roof/coated sheet', quantity: areas.roofPlanM2 }] : []),
    ...vents.map((v) => each('vents', `vent/${sizeUp(VENT_M2, (v.widthMm * v.heightMm) / 1e6)} m2`, true)),
    ...(air.winterOpenFrac < 1 && vents.length > 0
      ? [{ measure: 'winter-open', id: 'vent/throttle', quantity: vents.length }]
      : []),
    ...(fan === null
      ? []
      : fan.solar
        ? [each('fan-solar', `fan/solar ${sizeUp(SOLAR_W, fan.powerW)} W`)]
        : [several('fan', fanPriced(fan.powerW))]),
    ...(fan?.byHumidity === true ? [each('fan-by-humidity', 'control/humidity of two airs')] : []),
    ...(heater === null ? [] : [several(`heater-${heater.at}`, heatersPriced(heater))]),
    ...(heater?.humidistat === true ? [each('humidistat', 'control/humidistat')] : []),
    ...(air.dripHood ? [{ measure: 'drip-hood', id: 'drip hood/sheet', quantity: areas.gearM }] : []),
    ...(air.floorPainted ? [{ measure: 'floor-painted', id: 'paint/floor', quantity: areas.floorM2 }] : []),
  ]
}

/** On a circuit of the box: the bill counts it by that. */
const several = (measure: string, { id, count }: ReturnType<typeof heatersPriced>): Wanted => ({
  ...{ measure, id, quantity: count, billed: true },
})

/** Of 50 mm, kg/m². @source box loads of the trade: 1.6 to 2.0. Provenance: common practice */
const FOAM_KG_PER_M2 = { low: 1.6, high: 2, ofM: 0.05 }

/**
 * What the measures of a design cost: for each its quantity out of the body, material at the shop's prices and hours at its rates, rounded
 * to the cent; money is the sum of both. What has no price is named and in no sum: the total is then a floor.
 */
export function measuresCost(task: MeasuresTask): { readonly value: MeasuresCost; readonly working: Working } {
  const { prices, box } = task
  const missing: { id: string; why: string }[] = []
  const moneyOf = (id: string, per: string): number | null => {
    const row = Object.hasOwn(prices.rows, id) ? prices.rows[id] : undefined
    const why =
      row === undefined
        ? 'no price in the table'
        : row.per !== per
          ? `priced per ${row.per}, needed per ${per}`
          : row.currency !== undefined
            ? `priced in ${row.currency}, never added to ${prices.currency}`
            : null
    if (why !== null && !missing.some((m) => m.id === id)) missing.push({ id, why })
    return why === null ? row!.money : null
  }
  const lines = wantedOf(task).map((w): MeasureLine => {
    const row = rowOf('air-measures', w.measure)
    const per = wordsIn(row, 'per') as MeasureLine['per']
    const trade = wordsIn(row, 'trade') as Trade
    const quantity = per === 'each' ? w.quantity : Math.ceil(w.quantity * 100 - 1e-6) / 100
    const hours = quantity * numberIn(row, 'hours')
    const unitMoney = moneyOf(w.id, per)
    const rate = moneyOf(`hour/${trade}`, 'h')
    const materialMoney = unitMoney === null ? null : cents(quantity * unitMoney)
    const labourMoney = rate === null ? null : cents(hours * rate)
    const kg = (end: 'low' | 'high') =>
      quantity * (w.foamM === undefined ? numberIn(row, `mass_${end}`) : (FOAM_KG_PER_M2[end] * w.foamM) / FOAM_KG_PER_M2.ofM)
    return {
      ...{
        measure: w.measure,
        what: wordsIn(row, 'what'),
        id: w.id,
        quantity,
        per,
        unitMoney,
        materialMoney,
        trade,
        hours,
        labourMoney,
      },
      money: materialMoney === null || labourMoney === null ? null : cents(materialMoney + labourMoney),
      massKg: { low: kg('low'), high: kg('high') },
      billedAlready: w.billed === true,
    }
  })
  const totalMoney = cents(lines.reduce((sum, l) => sum + (l.money ?? 0), 0))
  const massKg = {
    low: lines.reduce((sum, l) => sum + l.massKg.low, 0),
    high: lines.reduce((sum, l) => sum + l.massKg.high, 0),
  }
  const value: MeasuresCost = { box, currency: prices.currency, lines, totalMoney, massKg, missing }
  return { value, working: workingOf(value) }
}

const cents = (money: number): number => Math.round(money * 100) / 100

function workingOf({ box, currency, lines, totalMoney, missing }: MeasuresCost): Working {
  const total = source('sum of the lines', 'computed')
  return {
    id: `${box}/air-measures`,
    title: `What keeps ${box} dry and cool, priced`,
    steps: [
      ...lines.map((l, i) =>
        step(
          `K${i + 1}`,
          'quantity × price + hours × rate',
          [
            put('of', l.what, ''),
            put('quantity', l.quantity, l.per === 'each' ? '' : l.per),
            put('price', l.unitMoney ?? 'not known', currency),
            put('hours', l.hours, 'h'),
            put('work', l.labourMoney ?? 'not known', currency),
          ],
          l.money ?? 'not known',
          currency,
          source(`table air-measures, ${l.measure}; price table, ${l.id}`, 'common practice'),
        ),
      ),
      step('K', 'sum of what is priced', [], totalMoney, currency, total),
    ],
    ...(missing.length === 0 ? {} : { notes: missing.map((m) => `${m.id}: ${m.why}. The sum is a floor.`) }),
  }
}
