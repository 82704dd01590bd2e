import { airYearMap, yearMapOf } from '@plugstead/drawings'
import type { AirEnd } from '@plugstead/engine/air'
import { QUESTION_WORDS } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import { type BookInput, type BoxAir, chartWidth } from '../results.ts'
import { col, number, plain, quantity, right } from '../words.ts'
import { hotSheets, nightSheets, shortSheets } from './air-hours.ts'
import { notAskedBlocks, remediesSheets } from './air-remedies.ts'
import { type AirAt, sheet } from './air-sheet.ts'
import { ventSheets } from './air-vents.ts'
import { airOf, ENDS, endHead, faceOf, litres, MONTH_WORDS, tenths, whole } from './air-words.ts'
import { type BuiltBox, cautionBlocks, dealt, judgedBlocks } from './built.ts'

const SHEETS = { shorts: ['short-run'], vents: ['heater-energy', 'fan-on-frost-night', 'vents-in-cold'] } as const

/** Whether each box stays dry and cool enough: the verdict at both ends, its year, its worst night and hottest hour, short runs, vents, measures. */
export function airSheets(input: BookInput, built: readonly BuiltBox[]): readonly Sheet[] {
  return built.flatMap((box) => {
    const air = airOf(input, box.id)
    const of = dealt(input, box, 'air', SHEETS)
    const at = { input, box, widthMm: chartWidth(input), units: input.units ?? 'metric' } as const
    const judged = [...cautionBlocks(of('rest')), ...judgedBlocks(box, of('rest'))]
    if (air === null)
      return judged.length === 0
        ? []
        : [sheet(box, QUESTION_WORDS.air, 'what is missing for an answer', judged, ['electrician', 'customer'])]
    return [
      sheet(
        box,
        QUESTION_WORDS.air,
        'a year of hours, at both ends of what nobody measured',
        [...cautionBlocks(of('rest')), ...countBlocks(air), ...judgedBlocks(box, of('rest')), ...notAskedBlocks(at)],
        ['electrician', 'customer'],
      ),
      sheet(box, 'The year, hour by hour', endHead(air, air.wetterEnd), yearBlocks(air, at), ['customer']),
      ...nightSheets(air, at),
      ...hotSheets(air, at),
      ...shortSheets(air, at, of('shorts')),
      ...ventSheets(at, of('vents')),
      ...remediesSheets(at),
    ]
  })
}

/** Fewer hours were counted: the box stands here for some months only. */
const YEAR_H = 8760

/** What the hours came from, and what a year comes to at the end that leaks least and the one that leaks most. */
function countBlocks(air: BoxAir): readonly Block[] {
  return [
    { k: 'facts', rows: weatherRows(air) },
    {
      ...{ k: 'table', small: true },
      columns: [
        col(air.weather.hoursCount < YEAR_H ? `in the ${number(air.weather.hoursCount)} h it stands here` : 'in the year', -1),
        right('leaks least', 40),
        right('leaks most', 40),
      ],
      rows: countRows(air).map(([words, of]): Inline[] => [words, ...ENDS.map((end) => of(air.ends[end]))]),
    },
    {
      ...{ k: 'para', small: true },
      text: 'What fails at one end only is unknown: how tight the box is decides. Short runs beside the year are not counted into it.',
    },
  ]
}

function weatherRows({ weather, ends }: BoxAir): readonly (readonly [Inline, Inline])[] {
  const { place } = weather
  const from =
    weather.from === 'file'
      ? `the file ${weather.named}`
      : `a year made from monthly means, ${weather.named}, seed ${weather.seed ?? 'not known'}`
  return [
    ['hours of', `${place.name}; ${from}; ${number(weather.hoursCount)} hours`],
    ...(weather.assumed.length === 0
      ? []
      : [['taken where nobody said', weather.assumed.map((words): string => plain(words)).join('; ')] as const]),
    ['leaks least', plain(ends.tight.said)],
    ['leaks most', plain(ends.leaky.said)],
  ]
}

type Year = BoxAir['ends'][AirEnd]

function countRows(air: BoxAir): readonly (readonly [string, (year: Year) => Inline])[] {
  const { ends } = air
  const some = (of: (year: Year) => number): boolean => ENDS.some((end) => of(ends[end]) > 0)
  return [
    ['hottest air inside', (y) => tenths(y.counts.airMostC, '°C')],
    ['hottest 24 h, mean of the air inside', (y) => tenths(y.counts.airDayMeanC, '°C')],
    ['coldest air inside', (y) => tenths(y.counts.airLeastC, '°C')],
    ['hours in which a face is wet', (y) => whole(y.counts.anyWetH, 'h')],
    ['hours in which a face is frosted', (y) => whole(y.counts.anyFrostH, 'h')],
    ['most that hangs under the roof', (y) => whole(faceOf(y, 'roof').mostGPerM2, 'g/m²')],
    ['nights on which frost grew under the roof', (y) => whole(faceOf(y, 'roof').frostNightsCount, '')],
    ['water that falls', (y) => `${litres(y.counts.fellKg)}, ${whole(y.counts.dripEventsCount, '')} times`],
    ['of it on gear that no hood stands over', (y) => litres(y.counts.fellOnGearKg)],
    ...(some((y) => y.counts.fellOnHoodsKg)
      ? [['of it on hoods', (y: Year): Inline => litres(y.counts.fellOnHoodsKg)] as const]
      : []),
    [
      'water that settles on the gear',
      (y) => `${whole(y.counts.gearDewH, 'h')}, at most ${tenths(y.counts.gearDewMostGPerM2, 'g/m²')}`,
    ],
    ['least that the gear is over the dew point', (y) => tenths(y.counts.gearLeastOverDewK, 'K')],
    ['dampest 24 h, mean', (y) => whole(y.counts.relativeDayMeanPct, '%')],
    [
      'damp hours above freezing, inside and outside',
      (y) =>
        `${whole(y.wetnessInside.hoursH, 'h')} (${classWords(y.wetnessInside.class)}), ${whole(y.wetnessOutside.hoursH, 'h')} (${classWords(y.wetnessOutside.class)})`,
    ],
    ['bare steel lost inside in its first year', (y) => lossWords(y.steelInside)],
    ['mould on the floor, 0 to 6', (y) => (y.mould === null ? 'no wood in it' : tenths(y.mould.mostRatio, ''))],
    [
      'a breaker holds of its rating, at its hottest under load',
      (y) =>
        y.breaker === null ? 'never loaded' : `${whole(y.breaker.holdsFrac * 100, '%')} at ${tenths(y.breaker.airC, '°C')}`,
    ],
    ...(some((y) => y.counts.heaterKWh)
      ? [
          [
            'heater',
            (y: Year): Inline => `${whole(y.counts.heaterKWh, 'kWh')}, ${whole(y.counts.heaterFullH, 'h')} at full power`,
          ] as const,
        ]
      : []),
    ...(some((y) => y.counts.fanKWh) ? [['fan', (y: Year): Inline => whole(y.counts.fanKWh, 'kWh')] as const] : []),
  ]
}

/** `tau3` as the standard prints it. */
const classWords = (name: string): string => name.replace('tau', 'τ')

const lossWords = ({ lowUmPerYear, highUmPerYear, lowCategory, highCategory }: Year['steelInside']): Inline =>
  `${number(lowUmPerYear)} … ${quantity(highUmPerYear, 'µm')} (${lowCategory === highCategory ? lowCategory : `${lowCategory} … ${highCategory}`})`

/** The map without ink, and the same by month. */
function yearBlocks(air: BoxAir, { widthMm, units, input }: AirAt): readonly Block[] {
  const end = air.wetterEnd
  const year = air.ends[end]
  const quantityShown = input.glass === undefined ? null : ('roofGPerM2' as const)
  const night = year.worstNight === null ? null : 0
  return [
    { k: 'drawing', scene: airYearMap(yearMapOf(air, { widthMm, units, end, quantity: quantityShown, spell: night })) },
    {
      ...{ k: 'para', small: true },
      text: 'Days across, hours up. The bracketed weeks are drawn large on the sheets that follow. Too hot is told by the room’s air and the gear’s own heat; at a wall in the sun it is hotter by up to 5 K, which the hours by kind of gear count.',
    },
    ...(year.months.length === 0 ? [] : [{ k: 'head' as const, text: 'By month' }, monthTable(year)]),
  ]
}

const monthTable = (year: Year): Block => ({
  ...{ k: 'table', small: true },
  columns: [
    col('month', -1),
    ...['outside mean, °C', 'inside mean, °C', 'hottest, °C', 'coldest, °C', 'humidity, %', 'roof wet, h', 'roof frosted, h'].map(
      (t) => right(t, 15),
    ),
    ...['most under it, g/m²', 'falls, l', 'heater, kWh', 'fan, kWh'].map((t) => right(t, 14)),
  ],
  rows: year.months.map((m): Inline[] => [
    MONTH_WORDS[m.month]!,
    ...[m.outsideMeanC, m.airMeanC, m.airMostC, m.airLeastC].map((c) => tenths(c, '')),
    ...[m.relativeMeanPct, m.roofWetH, m.roofFrostH, m.roofMostGPerM2].map((v) => whole(v, '')),
    tenths(m.fellKg, ''),
    ...[m.heaterKWh, m.fanKWh].map((v) => whole(v, '')),
  ]),
})
