import {
  boxDrawings,
  demandDay,
  oneLine,
  type PriceStack,
  priceStack,
  rodsDrawing,
  type Scene,
  SYMBOL_SETS,
  sheetScene,
  symbolSheet,
  timeCurrent,
} from '../src/index.ts'
import { airExamples } from './air-examples.ts'
import { clashingBox, yardBox } from './yard-box.ts'

const slots = (of: (hour: number) => number): readonly number[] => Array.from({ length: 96 }, (_, s) => of(s / 4))
const between = (from: number, to: number, value: number): readonly number[] => slots((h) => (h >= from && h < to ? value : 0))

const BLOCK_MM = { widthMm: 185, heightMm: 205 }
const sheets = [
  'six-sides',
  'plan',
  'wall-left-inside',
  'wall-left-outside',
  'opening-door-1',
  'plate-cord-plate-1',
  'runs-1',
  'lifting',
  'pads',
  'bars-1-strut',
]
const boxSheets: Readonly<Record<string, () => Scene>> = Object.fromEntries(
  sheets.map((id) => [`box-${id}`, () => sheetScene(boxDrawings(yardBox).find((d) => d.id === id)!, BLOCK_MM)]),
)

/** Invented figures: one scene of each kind, in each form it takes. */
/** Invented figures; the sums are true. */
const price: PriceStack = {
  widthMm: 185,
  currency: 'USD',
  groups: [
    { name: 'box', money: 2600 },
    { name: 'material', money: 18_400 },
    { name: 'labour', money: 11_200 },
    { name: 'overhead', money: 3900 },
    { name: 'bought', money: 4100 },
    { name: 'haul', money: 1800 },
    { name: 'risk', money: 700 },
    { name: 'warranty', money: 800 },
    { name: 'fees', money: 6500 },
  ],
  costMoney: 50_000,
  margin: { words: 'margin, 25 % of price', money: 14_500, priceMoney: 64_500 },
  tax: { words: 'sales tax, 6 %', money: 3870, totalMoney: 68_370 },
  range: { lowMoney: 48_600, middleMoney: 51_900, highMoney: 56_200 },
  isFloor: false,
  workings: {},
}

export const examples: Readonly<Record<string, () => Scene>> = {
  ...airExamples,
  'demand-day-two-legs': () =>
    demandDay({
      widthMm: 185,
      laneMm: 40,
      unit: 'A',
      lanes: ['leg A', 'leg B'].map((name, i) => ({
        name,
        before: between(20, 24, 62 - 8 * i),
        bound: 30 - i,
        service: 90,
        groups: [
          { name: 'coolant heater', after: between(2, 6, 25) },
          { name: 'tank heater', after: between(4, 9, 12.5) },
          { name: 'the box itself', after: between(0, 24, 2) },
        ],
      })),
    }),
  'demand-day-three-phases': () =>
    demandDay({
      widthMm: 185,
      laneMm: 26,
      unit: 'A',
      lanes: ['L1', 'L2', 'L3'].map((name, i) => ({
        name,
        before: between(6, 10, 30 + i),
        bound: null,
        service: 400,
        groups: [{ name: 'charger', after: between(6 + i, 10 + i, 20) }],
      })),
    }),
  'price-stack': () => priceStack(price),
  'price-stack-narrow': () => priceStack({ ...price, widthMm: 68 }),
  'one-line-ieee': () =>
    oneLine({
      widthMm: 185,
      symbols: SYMBOL_SETS['IEEE 315'],
      trunkA: 200,
      earthed: true,
      legs: ['A', 'B'],
      bus: ['panel B1, 120/240 V, bus 200 A', 'at the bus A 118.2 V, B 117.9 V'],
      trunk: [
        { symbol: 'source', words: ['U1, new service'] },
        { symbol: 'transformer', words: ['50 kVA, of the supplier'] },
        { symbol: 'meter', words: ['service 200 A'] },
        { symbol: 'breaker', words: ['main 200 A', 'feed 3/0 AWG cu, 60 m'] },
      ],
      branches: branches(['A', 'B'], '12 AWG', '5-20R', 'breaker'),
    })[0]!,
  'one-line-iec': () =>
    oneLine({
      widthMm: 185,
      symbols: SYMBOL_SETS['IEC 60617'],
      trunkA: 63,
      earthed: false,
      legs: ['A', 'B', 'C'],
      bus: ['panel B1, 230/400 V, bus 125 A', 'volts not solved'],
      trunk: [
        { symbol: 'generator', words: ['S1, hired set', '1 × 50 kVA'] },
        { symbol: 'fuse', words: ['main 63 A'] },
      ],
      branches: branches(['A', 'B', 'C'], '2.5 mm²', 'CEE 16 A', 'fuse'),
    })[0]!,
  'time-current': () =>
    timeCurrent({
      widthMm: 185,
      heightMm: 84,
      bands: [16, 63].map((rating) => ({
        name: `${rating} A`,
        fast: [
          [1.13 * rating, 3600],
          [2 * rating, 20],
          [5 * rating, 1],
          [5 * rating, 0.008],
          [1000 * rating, 0.008],
        ],
        slow: [
          [1.45 * rating, 3600],
          [2 * rating, 120],
          [10 * rating, 3],
          [10 * rating, 0.02],
          [1000 * rating, 0.02],
        ],
      })),
      damage: [
        {
          name: 'cord, 2.5 mm²',
          points: [
            [91, 10],
            [2875, 0.01],
          ],
        },
      ],
      decay: [
        {
          name: 'set S1',
          points: [
            [800, 0.01],
            [180, 0.3],
            [70, 5],
          ],
        },
      ],
      levels: [
        { name: 'lowest', currentA: 240 },
        { name: 'highest', currentA: 3100 },
      ],
    }),
  rods: () =>
    rodsDrawing({
      widthMm: 185,
      kind: 'rods',
      count: 3,
      lengthM: 2.4,
      diameterM: 0.016,
      spacingM: 3,
      conductor: '6 AWG cu',
      frostDepthM: { low: 0.9, high: 1.5 },
    }),
  ring: () =>
    rodsDrawing({
      widthMm: 185,
      kind: 'ring',
      count: 1,
      lengthM: 21,
      diameterM: 0.01,
      spacingM: 0,
      conductor: '16 mm² cu',
      frostDepthM: { low: 0, high: 0 },
    }),
  'symbols-ieee': () => symbolSheet(SYMBOL_SETS['IEEE 315'], 185),
  'symbols-iec': () => symbolSheet(SYMBOL_SETS['IEC 60617'], 185),
  ...boxSheets,
  'box-clash': () => sheetScene(boxDrawings(clashingBox).find((d) => d.id === 'wall-left-inside')!, BLOCK_MM),
}

function branches(legs: readonly string[], wire: string, outlet: string, deviceKind: 'breaker' | 'fuse') {
  return Array.from({ length: 5 }, (_, i) => ({
    ways: String(i + 1),
    device: '20 A',
    deviceKind,
    wire,
    legs: [legs[i % legs.length]!],
    currentA: [12.5, 8.3, 24, 40, 0][i]!,
    outlet: i === 4 ? 'spare' : outlet,
    ends:
      i === 4
        ? []
        : Array.from({ length: i + 1 }, (__, k) => ({
            words: `G${i}${k} 11${k}.4 V`,
            kind: 'heater' as const,
            cord: k % 2 === 0,
            verdict: (['holds', 'tight', 'fails', 'unknown'] as const)[k]!,
          })),
  }))
}
