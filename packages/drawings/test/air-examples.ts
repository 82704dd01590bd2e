import type { AirDesign } from '@plugstead/engine/job'
import {
  type AirUnits,
  airFaces,
  airReasons,
  airRemedies,
  airSection,
  airWeek,
  airYearMap,
  hotFromC,
  type MapQuantity,
  type RemedyAmounts,
  type RemedyTable,
  type Scene,
  yearMapOf,
} from '../src/index.ts'
import { AIR_DESIGN, AIR_SIZE, airBox, type Climate, COLD, HOT, hoursIn, spellFrom } from './air-year.ts'

const cold = airBox(COLD)
const hot = airBox(HOT)
const WIDTH_MM = 185
const NARROW_MM = 104

const mapOf = (box: typeof cold, widthMm: number, quantity: MapQuantity | null, units: AirUnits = 'metric') =>
  airYearMap(yearMapOf(box, { widthMm, units, end: 'tight', quantity, spell: 0 }))

const spell = cold.ends.tight.spells[0]!
const summer = hot.ends.tight.spells.at(-1)!
const worstH = cold.ends.tight.worstNight!.atH - spell.fromH
const hotH = hot.ends.tight.hottestHour.atH - summer.fromH
const dripH = Math.max(0, spell.faces.roof.fellG.indexOf(Math.max(...spell.faces.roof.fellG)))

const weekOf = (of: typeof spell, atH: number | null, widthMm = WIDTH_MM, units: AirUnits = 'metric') =>
  airWeek({ widthMm, units, spell: of, atH, hotC: hotFromC(cold.ends.tight.gear) })

const vents = AIR_DESIGN.vents.map(({ id, side }) => ({ id, side, flowM3S: 0.01 }))
const ends: AirDesign = {
  ...AIR_DESIGN,
  ...{ secondRoof: true, wallFoamM: 0.04, heater: { at: 'room', powerW: 900, onBelowC: 5, humidistat: false }, dripHood: false },
  vents: [
    { id: 'vent low', side: 'door end', widthMm: 300, heightMm: 200, upMm: 400, fan: false },
    { id: 'fan', side: 'left', widthMm: 300, heightMm: 300, upMm: 2100, fan: true },
  ],
}

const amounts = (
  hotH: number,
  coldH: number,
  wetH: number,
  mostGPerM2: number,
  fellL: number,
  usedKWh: number,
): RemedyAmounts => ({
  ...{ hotH, coldH, wetH, mostGPerM2, fellL, onGearL: fellL / 8, usedKWh },
})
/** Invented figures. */
const remedies: RemedyTable = {
  ...{ widthMm: WIDTH_MM, currency: 'USD', basis: 'mean of 30 invented years' },
  base: { name: 'nothing done', after: amounts(312, 3381, 1810, 640, 21.4, 0), holdsFrac: 0.03 },
  parts: [
    {
      ...{ title: 'One at a time, against nothing done', stacked: false },
      rows: [
        { name: 'light roof', after: amounts(74, 3395, 1905, 655, 22.1, 0), money: 260, note: null, holdsFrac: 0.1 },
        { name: 'two vents, low and high', after: amounts(190, 3439, 820, 210, 0.6, 0), money: 410, note: null, holdsFrac: 0.4 },
        { name: 'heater with humidistat', after: amounts(312, 6, 1220, 480, 9.3, 412), money: 240, note: null, holdsFrac: 0.2 },
        {
          name: 'solar fan',
          after: amounts(120, 3380, 1790, 640, 21.4, 0),
          money: 380,
          note: 'it never runs on the night that frosts',
          holdsFrac: null,
        },
        {
          name: 'foam under the roof',
          after: { ...amounts(140, 3303, 210, 40, 0, 0), mostGPerM2: null },
          money: null,
          note: null,
          holdsFrac: null,
        },
      ],
    },
    {
      ...{ title: 'One on top of the other, in the order in which they pay', stacked: true },
      rows: [
        { name: 'two vents, low and high', after: amounts(190, 3439, 820, 210, 0.6, 0), money: 410, note: null, holdsFrac: 0.4 },
        { name: 'light roof as well', after: amounts(12, 3440, 860, 220, 0.7, 0), money: 260, note: null, holdsFrac: 0.8 },
        {
          name: 'drip hood as well',
          after: { ...amounts(12, 3440, 860, 220, 0.7, 0), onGearL: 0 },
          money: 60,
          note: null,
          holdsFrac: 0.97,
        },
      ],
    },
  ],
}

/** Sixty below, by day and by night; and no hour at all; and one. */
const ARCTIC: Climate = { meanC: -60, yearC: 3, dayC: 3, dampK: 4 }
const arcticHours = hoursIn({ ...ARCTIC, hoursCount: 96 }, 1.4)
const arctic = spellFrom('sixty below', arcticHours, 0, 96)
const oneHour = spellFrom('one hour', arcticHours, 10, 11, false)
const empty = spellFrom('no hours', arcticHours, 10, 10)

/** Invented figures: one air scene of each kind, in each form it takes. */
export const airExamples: Readonly<Record<string, () => Scene>> = {
  'air-year-map-paper': () => mapOf(cold, WIDTH_MM, null),
  'air-year-map-film': () => mapOf(cold, WIDTH_MM, 'roofGPerM2'),
  'air-year-map-hot': () => mapOf(hot, WIDTH_MM, 'airC', 'us'),
  'air-year-map-narrow': () => mapOf(cold, NARROW_MM, 'relativePct'),
  'air-year-map-one-hour': () => mapOf(airBox({ ...COLD, hoursCount: 1 }), WIDTH_MM, 'airC'),
  'air-week': () => weekOf(spell, worstH),
  'air-week-hot': () => weekOf(summer, hotH, WIDTH_MM, 'us'),
  'air-week-narrow': () => weekOf(spell, dripH, NARROW_MM),
  'air-week-sixty-below': () => weekOf(arctic, null),
  'air-week-one-hour': () => weekOf(oneHour, 0),
  'air-week-empty': () => weekOf(empty, 0),
  'air-faces': () => airFaces({ widthMm: WIDTH_MM, units: 'metric', spell, atH: dripH, sizeM: AIR_SIZE, vents }),
  'air-faces-narrow': () => airFaces({ widthMm: NARROW_MM, units: 'us', spell, atH: worstH, sizeM: AIR_SIZE, vents }),
  'air-faces-long': () =>
    airFaces({ widthMm: WIDTH_MM, units: 'metric', spell: arctic, atH: 0, sizeM: { ...AIR_SIZE, lengthM: 12 }, vents }),
  'air-faces-empty': () => airFaces({ widthMm: WIDTH_MM, units: 'metric', spell: empty, atH: 0, sizeM: AIR_SIZE, vents }),
  'air-section': () =>
    airSection({ widthMm: WIDTH_MM, units: 'metric', spell, atH: dripH, sizeM: AIR_SIZE, air: AIR_DESIGN, gearSide: 'left' }),
  'air-section-narrow': () =>
    airSection({ widthMm: NARROW_MM, units: 'us', spell, atH: worstH, sizeM: AIR_SIZE, air: AIR_DESIGN, gearSide: 'right' }),
  'air-section-ends': () =>
    airSection({
      widthMm: WIDTH_MM,
      units: 'metric',
      spell: withFan(arctic),
      atH: 5,
      sizeM: AIR_SIZE,
      air: ends,
      gearSide: 'left',
    }),
  'air-section-one-hour': () =>
    airSection({
      widthMm: WIDTH_MM,
      units: 'metric',
      spell: oneHour,
      atH: 0,
      sizeM: AIR_SIZE,
      air: { ...AIR_DESIGN, vents: [], roofFoamM: 0, heater: null },
      gearSide: 'left',
    }),
  'air-reasons': () => airReasons({ widthMm: WIDTH_MM, units: 'metric', moment: cold.ends.tight.worstNight! }),
  'air-reasons-narrow': () => airReasons({ widthMm: NARROW_MM, units: 'us', moment: hot.ends.tight.hottestHour }),
  'air-remedies': () => airRemedies(remedies),
  'air-remedies-narrow': () => airRemedies({ ...remedies, widthMm: NARROW_MM }),
}

function withFan(of: typeof spell): typeof spell {
  const still = of.airC.map(() => 0)
  return {
    ...of,
    openings: [
      { id: 'vent low', flowM3S: still.map(() => 0.021) },
      { id: 'fan', flowM3S: still.map(() => -0.03) },
    ],
  }
}
