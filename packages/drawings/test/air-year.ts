import type {
  AirBoxResult,
  AirCounts,
  AirEnd,
  AirFaceHours,
  AirMoment,
  AirResult,
  AirShort,
  AirSpell,
  AirYear,
  DripEvent,
  GearHours,
} from '@plugstead/engine/air'
import { type AirDesign, SIDES, type Side } from '@plugstead/engine/job'

/**
 * Invented hours in the shapes the engine gives, for looking at pictures and sheets. Nothing in it was computed from physics: it must never be
 * taken for an answer, and no check of the engine reads it.
 */
const DAY_H = 24
const YEAR_H = 8760
const DAYS = 365

interface Hours {
  readonly outsideC: number[]
  readonly windMPerS: number[]
  readonly sunWPerM2: number[]
  readonly cloudPct: number[]
  readonly airC: number[]
  readonly gearC: number[]
  readonly dewPointC: number[]
  readonly relativePct: number[]
  readonly roofC: number[]
  readonly filmG: number[]
  readonly frostG: number[]
  readonly fellG: number[]
  readonly heaterWh: number[]
  readonly fanWh: number[]
}

export interface Climate {
  readonly hoursCount?: number
  /** Mean of the year, half its swing, half the swing of a day. */
  readonly meanC: number
  readonly yearC: number
  readonly dayC: number
  /** How far the dew point inside lies over that outside. */
  readonly dampK: number
}

export const COLD: Climate = { meanC: 1, yearC: 16, dayC: 6, dampK: 4 }
export const HOT: Climate = { meanC: 24, yearC: 8, dayC: 7, dampK: -14 }

const tenth = (v: number): number => Math.round(v * 10) / 10

function hoursOf({ meanC, yearC, dayC, dampK, hoursCount = YEAR_H }: Climate, damp: number): Hours {
  const out: Hours = {
    ...{ outsideC: [], windMPerS: [], sunWPerM2: [], cloudPct: [], airC: [], gearC: [], dewPointC: [], relativePct: [] },
    ...{ roofC: [], filmG: [], frostG: [], fellG: [], heaterWh: [], fanWh: [] },
  }
  let [film, gear, frost] = [0, meanC - yearC, 0]
  for (let h = 0; h < hoursCount; h += 1) {
    const day = h / DAY_H
    const hour = h % DAY_H
    const season = -Math.cos((2 * Math.PI * (day - 15)) / DAYS)
    const spell = 4 * Math.sin(day / 3.1) + 3 * Math.sin(day / 7.7 + 1)
    const outside = meanC + yearC * season + spell - dayC * Math.cos((2 * Math.PI * (hour - 3)) / DAY_H)
    const cloud = 50 + 45 * Math.sin(day / 2.3 + 0.5)
    const up = Math.max(0, Math.sin((Math.PI * (hour - 6 + season)) / (12 + 2 * season)))
    const sun = up * (500 + 350 * season) * (1 - cloud / 140)
    const roof = outside + sun * 0.03 - (sun < 5 ? 5 * (1 - cloud / 100) : 0)
    const air = outside + 1.5 + sun * 0.016
    gear += (air + 1 - gear) / 6
    const dew = Math.min(air - 0.3, outside - 5 + 1.5 * Math.sin(day / 5) + dampK * damp - sun * 0.004)
    const grows = dew - roof > 0 ? (dew - roof) * 1.5 * damp : (dew - roof) * (roof > 0 ? 9 : 3.2)
    film = Math.max(0, film + grows)
    frost = roof < 0 ? Math.max(0, Math.min(film, frost + Math.max(0, grows))) : Math.max(0, frost - 60)
    const fell = film - frost > 540 ? film - frost - 540 : 0
    film -= fell
    out.outsideC.push(tenth(outside))
    out.windMPerS.push(tenth(2.5 + 2 * Math.sin(day / 1.7) ** 2 + Math.sin(hour / 4)))
    out.sunWPerM2.push(Math.round(sun))
    out.cloudPct.push(Math.round(cloud))
    out.airC.push(tenth(air))
    out.gearC.push(tenth(gear))
    out.dewPointC.push(tenth(dew))
    out.relativePct.push(Math.round(Math.max(5, Math.min(100, 100 - 5 * (air - dew)))))
    out.roofC.push(tenth(roof))
    out.filmG.push(tenth(film))
    out.frostG.push(tenth(Math.min(film, frost)))
    out.fellG.push(Math.round(fell * 13.8))
    out.heaterWh.push(air < 0 ? Math.round(Math.min(500, -40 * air)) : 0)
    out.fanWh.push(air > 25 ? 45 : 0)
  }
  return out
}

const VENTS = [
  { id: 'vent low', side: 'right', widthMm: 300, heightMm: 300, upMm: 350, fan: false },
  { id: 'vent high', side: 'left', widthMm: 300, heightMm: 300, upMm: 2150, fan: false },
] as const

export const AIR_SIZE = { lengthM: 5.9, widthM: 2.35, heightM: 2.39 } as const

export const AIR_DESIGN: AirDesign = {
  ...{ roofPaint: 'white, new', wallPaint: 'red oxide, brown', vents: VENTS, winterOpenFrac: 0.25 },
  ...{ roofFoamM: 0.025, wallFoamM: 0, bridgesFoamed: false, secondRoof: false, fan: null, dripHood: true, floorPainted: true },
  heater: { at: 'cabinet', powerW: 500, onBelowC: 0, humidistat: true },
}

function faceOf(side: Side, all: Hours, from: number, to: number): AirFaceHours {
  const part = side === 'roof' ? 1 : side === 'floor' ? 0 : 0.22
  const cut = (values: readonly number[], of: (v: number, h: number) => number): readonly number[] =>
    values.slice(from, to).map((v, i) => of(v, from + i))
  return {
    insideC: cut(all.roofC, (c, h) => tenth(side === 'roof' ? c : (c + all.airC[h]!) / 2)),
    outsideC: cut(all.roofC, (c, h) =>
      tenth(side === 'roof' ? c - 0.2 : side === 'floor' ? all.outsideC[h]! : (c + all.outsideC[h]!) / 2),
    ),
    filmGPerM2: cut(all.filmG, (g) => tenth(g * part)),
    frostGPerM2: cut(all.frostG, (g) => tenth(g * part)),
    fellG: cut(all.fellG, (g) => (side === 'roof' ? g : 0)),
  }
}

export function spellFrom(what: string, all: Hours, from: number, to: number, flows = true): AirSpell {
  const cut = (values: readonly number[]): readonly number[] => values.slice(from, to)
  const drive = (h: number): number => 0.004 + 0.002 * Math.sqrt(Math.abs(all.airC[h]! - all.outsideC[h]!))
  const hours = Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i)
  return {
    ...{ what, fromH: from, hoursCount: to - from, firstDay: 1 + Math.floor(from / DAY_H), firstHour: from % DAY_H },
    ...{ outsideC: cut(all.outsideC), windMPerS: cut(all.windMPerS), sunWPerM2: cut(all.sunWPerM2), cloudPct: cut(all.cloudPct) },
    ...{ airC: cut(all.airC), gearC: cut(all.gearC), dewPointC: cut(all.dewPointC), relativePct: cut(all.relativePct) },
    gearFilmGPerM2: hours.map((h) => tenth(Math.max(0, (all.dewPointC[h]! - all.gearC[h]!) * 3))),
    faces: Object.fromEntries(SIDES.map((side) => [side, faceOf(side, all, from, to)])) as Record<Side, AirFaceHours>,
    inflowKgPerH: hours.map((h) => tenth(drive(h) * 3600 * 1.25)),
    openings: flows
      ? [
          { id: 'vent low', flowM3S: hours.map((h) => drive(h) * 0.8) },
          { id: 'vent high', flowM3S: hours.map((h) => -drive(h)) },
        ]
      : [],
    ...{ heaterWh: cut(all.heaterWh), fanWh: cut(all.fanWh) },
  }
}

const topOf = (values: readonly number[]): { readonly value: number; readonly atH: number } => {
  let at = 0
  for (let h = 1; h < values.length; h += 1) if (values[h]! > values[at]!) at = h
  return { value: values[at] ?? 0, atH: at }
}
const sum = (values: readonly number[]): number => values.reduce((all, v) => all + v, 0)
const count = (values: readonly number[], is: (v: number, h: number) => boolean): number =>
  values.reduce((n, v, h) => n + (is(v, h) ? 1 : 0), 0)
const mean = (values: readonly number[]): number => (values.length === 0 ? 0 : sum(values) / values.length)

function countsOf(all: Hours): AirCounts {
  const most = topOf(all.filmG)
  const fellKg = sum(all.fellG) / 1000
  return {
    ...{
      hoursCount: all.airC.length,
      airMostC: Math.max(...all.airC),
      airLeastC: Math.min(...all.airC),
      airDayMeanC: Math.max(...all.airC) - 6,
    },
    faces: SIDES.map((side) => ({
      side,
      wetH: side === 'roof' ? count(all.filmG, (g, h) => g - all.frostG[h]! > 0.5) : 0,
      frostH: side === 'roof' ? count(all.frostG, (g) => g > 0.5) : 0,
      mostGPerM2: side === 'roof' ? most.value : side === 'floor' ? 0 : tenth(most.value * 0.22),
      mostAtH: most.atH,
      bareMostGPerM2: 0,
      frostNightsCount: side === 'roof' ? Math.round(count(all.frostG, (g) => g > 0.5) / 12) : 0,
      fellKg: side === 'roof' ? fellKg : 0,
    })),
    anyWetH: count(all.filmG, (g, h) => g - all.frostG[h]! > 0.5),
    anyFrostH: count(all.frostG, (g) => g > 0.5),
    ...{ gearDewH: 3, gearDewMostGPerM2: 1.2, gearDewAtH: 700, gearLeastOverDewK: -0.4 },
    ...{ relativeDayMeanPct: 93, relativeDayMeanAtH: 720 },
    ...{ fellKg, fellOnGearKg: 0, fellOnHoodsKg: fellKg * 0.05, dripEventsCount: dripsOf(all).length },
    ...{ heaterKWh: sum(all.heaterWh) / 1000, heaterFullH: count(all.heaterWh, (w) => w > 490), fanKWh: sum(all.fanWh) / 1000 },
  }
}

const NAMES = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]
const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
function when(h: number): string {
  let day = Math.floor(h / DAY_H) % DAYS
  let month = 0
  while (day >= LENGTHS[month]!) {
    day -= LENGTHS[month]!
    month += 1
  }
  return `${day + 1} ${NAMES[month]}, ${String(h % DAY_H).padStart(2, '0')}:00`
}

function dripsOf(all: Hours): readonly DripEvent[] {
  const out: DripEvent[] = []
  for (let h = 0; h < all.fellG.length; h += 1) {
    if (!(all.fellG[h]! > 5)) continue
    let to = h
    let fell = 0
    while ((all.fellG[to] ?? 0) > 5) {
      fell += all.fellG[to]! / 1000
      to += 1
    }
    out.push({
      ...{ atH: h, when: when(h), hoursCount: to - h, side: 'roof' as const, fellKg: fell, hungGPerM2: 540, fromFrost: true },
      on: [{ id: 'panel', landsKg: fell * 0.05, hooded: true }],
    })
    h = to
  }
  return out
    .sort((a, b) => b.fellKg - a.fellKg)
    .slice(0, 24)
    .sort((a, b) => a.atH - b.atH)
}

function gearOf(all: Hours): readonly GearHours[] {
  const hot = topOf(all.airC)
  const cold = topOf(all.airC.map((c) => -c))
  const row = (
    gear: string,
    what: string,
    leastC: number | null,
    mostC: number | null,
    dayMeanMostC: number | null,
  ): GearHours => ({
    ...{
      gear,
      what,
      leastC,
      mostC,
      dayMeanMostC,
      coldestC: -cold.value,
      coldestAtH: cold.atH,
      hottestC: hot.value,
      hottestAtH: hot.atH,
    },
    dayMeanC: tenth(hot.value - 7),
    belowH: leastC === null ? 0 : count(all.airC, (c) => c < leastC),
    aboveH: mostC === null ? 0 : count(all.airC, (c) => c > mostC),
  })
  return [
    row('moulded-case breaker UL 489', 'breakers of the panel', -5, 40, null),
    row('GFCI UL 943', 'ground-fault devices', -35, 66, null),
    row('electronic controller, commercial', 'controls that hold starts apart', 0, 50, null),
  ]
}

function momentsOf(all: Hours): { readonly night: AirMoment | null; readonly hot: AirMoment } {
  const wet = topOf(all.filmG)
  const hot = topOf(all.airC)
  const h = wet.atH
  const t = (values: readonly number[]): number => values[h]!
  return {
    night:
      wet.value < 0.5
        ? null
        : {
            ...{ what: 'worst night' as const, atH: h, when: when(h) },
            steps: [
              { said: 'cloud covers of the sky', value: t(all.cloudPct), unit: '%' },
              { said: 'wind', value: t(all.windMPerS), unit: 'm/s' },
              { said: 'the air outside is at', value: t(all.outsideC), unit: '°C' },
              { said: 'outer face of the roof below that air by', value: t(all.outsideC) - t(all.roofC), unit: 'K' },
              { said: 'its underside is at', value: t(all.roofC), unit: '°C' },
              { said: 'the air inside is at', value: t(all.airC), unit: '°C' },
              { said: 'and holds a humidity of', value: t(all.relativePct), unit: '%' },
              { said: 'so frost grows on what is colder than', value: t(all.dewPointC), unit: '°C' },
              { said: 'frost grows in this hour by', value: 12.4, unit: 'g/m²' },
              { said: 'nights on which it grew since the roof was dry', value: 11, unit: '' },
              { said: 'what hangs under the roof in the end', value: wet.value, unit: 'g/m²' },
              { said: 'it thaws from', value: when(h + 9), unit: '' },
              { said: 'from then on it falls, in 4 h', value: 3.4, unit: 'l' },
              { said: 'of it on controls', value: 0.02, unit: 'l' },
              { said: 'of it on the hood over panel', value: 0.17, unit: 'l' },
              { said: 'the fan ran in that hour', value: 'no', unit: '' },
            ],
          },
    hot: {
      ...{ what: 'hottest hour' as const, atH: hot.atH, when: when(hot.atH) },
      steps: [
        { said: 'the air outside is at', value: all.outsideC[hot.atH]!, unit: '°C' },
        { said: 'sun on the flat', value: all.sunWPerM2[hot.atH]!, unit: 'W/m²' },
        { said: 'wind', value: all.windMPerS[hot.atH]!, unit: 'm/s' },
        { said: 'the outer face of the roof is at', value: all.roofC[hot.atH]!, unit: '°C' },
        { said: 'the gear gives off', value: 220, unit: 'W' },
        { said: 'outside air turns the air inside over, times an hour', value: 3.2, unit: '' },
        { said: 'the air inside comes to', value: hot.value, unit: '°C' },
        { said: 'above the air outside by', value: hot.value - all.outsideC[hot.atH]!, unit: 'K' },
      ],
    },
  }
}

/** A week with the hour in its fourth day. */
function weekAt(h: number, hoursCount: number): readonly [number, number] {
  const length = Math.min(7 * DAY_H, hoursCount)
  const from = Math.max(0, Math.min(hoursCount - length, Math.floor(h / DAY_H - 3) * DAY_H))
  return [from, from + length]
}

function yearOf(end: AirEnd, all: Hours): AirYear {
  const { night, hot } = momentsOf(all)
  const n = all.airC.length
  const month = (m: number): AirYear['months'][number] => {
    const from = LENGTHS.slice(0, m).reduce((s, d) => s + d, 0) * DAY_H
    const to = Math.min(n, from + LENGTHS[m]! * DAY_H)
    const cut = (values: readonly number[]): readonly number[] => values.slice(from, to)
    return {
      ...{ month: m, outsideMeanC: mean(cut(all.outsideC)), airMeanC: mean(cut(all.airC)) },
      ...{
        airMostC: Math.max(...cut(all.airC)),
        airLeastC: Math.min(...cut(all.airC)),
        relativeMeanPct: mean(cut(all.relativePct)),
      },
      roofWetH: count(cut(all.filmG), (g, i) => g - all.frostG[from + i]! > 0.5),
      roofFrostH: count(cut(all.frostG), (g) => g > 0.5),
      roofMostGPerM2: Math.max(0, ...cut(all.filmG)),
      ...{ fellKg: sum(cut(all.fellG)) / 1000, heaterKWh: sum(cut(all.heaterWh)) / 1000, fanKWh: sum(cut(all.fanWh)) / 1000 },
    }
  }
  const spells: AirSpell[] = []
  if (night !== null) spells.push(spellFrom('week around the worst night', all, ...weekAt(night.atH, n)))
  spells.push(spellFrom('week around the hottest hour', all, ...weekAt(hot.atH, n)))
  return {
    ...{ end, said: end === 'tight' ? 'as little as leaks' : 'as much as leaks', counts: countsOf(all), gear: gearOf(all) },
    months: n < YEAR_H ? [] : Array.from({ length: 12 }, (_, m) => month(m)),
    atGear: { dayMeanPct: 92, dayMeanAtH: 0, monthMeanPct: 80 },
    ...{ wetnessInside: { hoursH: 1200, class: 'tau3' }, wetnessOutside: { hoursH: 2600, class: 'tau4' } },
    steelInside: { lowUmPerYear: 4, highUmPerYear: 14, lowCategory: 'C2', highCategory: 'C2' },
    steelOutside: { lowUmPerYear: 12, highUmPerYear: 31, lowCategory: 'C2', highCategory: 'C3' },
    ...{ mould: { mostRatio: 0.6, endRatio: 0.3 }, breaker: { airC: hot.steps.length, atH: hot.atH, holdsFrac: 0.94 } },
    ...{ drips: dripsOf(all), worstNight: night, hottestHour: hot, spells },
    map: {
      ...{ airC: all.airC, gearC: all.gearC, roofC: all.roofC, relativePct: all.relativePct },
      roofGPerM2: all.filmG.map((g) => Math.round(g)),
    },
    colderSky: null,
    ...{ energyResidualFrac: 2e-13, waterResidualFrac: 4e-12 },
  }
}

function shortsOf(climate: Climate): readonly AirShort[] {
  const one = (run: AirShort['run'], said: string, of: Climate): AirShort => {
    const end = (damp: number): AirShort['ends'][AirEnd] => {
      const all = hoursOf({ ...of, hoursCount: 240 }, damp)
      return { counts: countsOf(all), gear: gearOf(all), drips: dripsOf(all) }
    }
    const spell = spellFrom(run, hoursOf({ ...of, hoursCount: 240 }, 1.4), 0, 240)
    return { run, said, ends: { tight: end(1.4), leaky: end(1) }, spell, spellEnd: 'tight' }
  }
  return [
    one('first warm wind', 'Eight clear nights, then a warm and damp wind.', {
      ...climate,
      meanC: climate.meanC + 3,
    }),
    one('hot week', 'A hot, still week.', { ...climate, meanC: climate.meanC + 2 * climate.yearC }),
  ]
}

export const hoursIn = hoursOf

export function airBox(climate: Climate, box = 'yard'): AirBoxResult {
  const [tight, leaky] = [hoursOf(climate, 1.4), hoursOf(climate, 1)]
  return {
    box,
    weather: {
      place: { name: 'Invented valley', latitudeDeg: 46, longitudeDeg: 8, elevationM: 1400, utcOffsetH: 1 },
      ...{ from: 'made', named: 'Invented valley', seed: 7, firstDay: 1, firstHour: 0, hoursCount: tight.airC.length },
      ...{ assumed: ['a year made from monthly means'], origins: {} },
    },
    ...{ outsideC: tight.outsideC, outsideRelativePct: tight.relativePct },
    ends: { tight: yearOf('tight', tight), leaky: yearOf('leaky', leaky) },
    ...{ wetterEnd: 'tight', hotterEnd: 'tight', loadedMostC: null, shorts: shortsOf(climate) },
  }
}

export const airResult = (climate: Climate = COLD): AirResult => ({ boxes: [airBox(climate)] })
