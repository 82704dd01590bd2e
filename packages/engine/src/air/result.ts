import type { Assumption, Side } from '../job/index.ts'
import type { Finding, Working } from '../kernel/index.ts'
import type { ColumnOrigin, RunName, WeatherColumn, WeatherPlace } from '../weather/index.ts'

/**
 * The two ends of what nobody measured: the box that leaks least and the box that leaks most. Every figure is worked out at both; what fails
 * at one of them only is unknown. Hours (`atH`, `fromH`) are counted from the beginning of their run: hour 0 is its first.
 */
export type AirEnd = 'tight' | 'leaky'

/** The hours a box was taken through. */
export interface AirWeatherUsed {
  readonly place: WeatherPlace
  /** A file that was given, or a year made from monthly means. */
  readonly from: 'file' | 'made'
  /** Name of the file, or of the row of normals that the year was made from. */
  readonly named: string
  /** Of a made year; null for a file. */
  readonly seed: number | null
  /** Day of the year (1 to 366) and hour (0 to 23) that hour 0 begins at. */
  readonly firstDay: number
  readonly firstHour: number
  readonly hoursCount: number
  /** What was filled in because nobody said, in words. */
  readonly assumed: readonly string[]
  readonly origins: Readonly<Partial<Record<WeatherColumn, ColumnOrigin>>>
}

/** For the map of a year, one number an hour: tenths of a kelvin, whole percent, whole grams. */
export interface AirMap {
  readonly airC: readonly number[]
  readonly gearC: readonly number[]
  /** Underside of the roof. */
  readonly roofC: readonly number[]
  readonly relativePct: readonly number[]
  /** Water and frost together under the roof. */
  readonly roofGPerM2: readonly number[]
}

/** One face over the hours of a spell. */
export interface AirFaceHours {
  readonly insideC: readonly number[]
  readonly outsideC: readonly number[]
  /** Water and frost together, and the frost in it. */
  readonly filmGPerM2: readonly number[]
  readonly frostGPerM2: readonly number[]
  /** What fell or ran off in each hour. */
  readonly fellG: readonly number[]
}

/** Every figure of some days, for a drawing of them: a week around the worst night, or a whole short run. */
export interface AirSpell {
  readonly what: string
  /** First hour within its run, and how many. */
  readonly fromH: number
  readonly hoursCount: number
  /** Day of the year and hour of the clock that it begins at. */
  readonly firstDay: number
  readonly firstHour: number
  readonly outsideC: readonly number[]
  readonly windMPerS: readonly number[]
  /** Sun on the flat. */
  readonly sunWPerM2: readonly number[]
  /** Share of the sky that cloud covers; empty where the weather does not know. */
  readonly cloudPct: readonly number[]
  readonly airC: readonly number[]
  readonly gearC: readonly number[]
  readonly dewPointC: readonly number[]
  readonly relativePct: readonly number[]
  readonly gearFilmGPerM2: readonly number[]
  readonly faces: Readonly<Record<Side, AirFaceHours>>
  /** Outside air that comes in. */
  readonly inflowKgPerH: readonly number[]
  /** Through each opening, in is positive; empty where the run does not keep it. */
  readonly openings: readonly { readonly id: string; readonly flowM3S: readonly number[] }[]
  readonly heaterWh: readonly number[]
  readonly fanWh: readonly number[]
}

/** One link in a chain of reasons: “the roof falls below the air by”, 6.2, K. */
export interface AirReason {
  readonly said: string
  readonly value: number | string
  readonly unit: string
}

/** A moment, and how it came to it, reason by reason. */
export interface AirMoment {
  /** Where most of the water gathered by day, no night is named for it. */
  readonly what: 'worst night' | 'wettest hours' | 'hottest hour'
  readonly atH: number
  /** “17 January, 06:00”. */
  readonly when: string
  readonly steps: readonly AirReason[]
}

/** Water that fell, from its first hour to its last. */
export interface DripEvent {
  readonly atH: number
  readonly when: string
  readonly hoursCount: number
  readonly side: Side
  readonly fellKg: number
  /** Most that hung there in the day before. */
  readonly hungGPerM2: number
  /** It froze to the face first. */
  readonly fromFrost: boolean
  /** What lies below, what of it lands there, and whether a hood keeps it off. The rest lands on the floor. */
  readonly on: readonly { readonly id: string; readonly landsKg: number; readonly hooded: boolean }[]
}

/** Hours of one kind of gear beyond what it stands. */
export interface GearHours {
  /** Row of table `gear-limits`. */
  readonly gear: string
  /** Where it is, in words: “breakers of the panel”. */
  readonly what: string
  readonly leastC: number | null
  readonly mostC: number | null
  readonly dayMeanMostC: number | null
  /** Air at it: the coldest, the hottest, the hottest mean of 24 h, and when. */
  readonly coldestC: number
  readonly coldestAtH: number
  readonly hottestC: number
  readonly hottestAtH: number
  readonly dayMeanC: number
  readonly belowH: number
  readonly aboveH: number
}

/** How wet one face was. */
export interface FaceWet {
  readonly side: Side
  readonly wetH: number
  readonly frostH: number
  readonly mostGPerM2: number
  readonly mostAtH: number
  /** Most on what of it is bare steel through and through, where the rest is foamed; 0 where nothing is. */
  readonly bareMostGPerM2: number
  /** Nights on which frost grew on it. */
  readonly frostNightsCount: number
  readonly fellKg: number
}

/** Hours above 80 % humidity and above freezing, with the class they belong to. */
export interface Wetness {
  readonly hoursH: number
  /** Row of table `wetness`: `tau3`. */
  readonly class: string
}

/** Loss of bare steel in its first year. */
export interface SteelLoss {
  /** At the least and at the most of what settles from the air. */
  readonly lowUmPerYear: number
  readonly highUmPerYear: number
  /** Rows of table `corrosivity`: `C3`. */
  readonly lowCategory: string
  readonly highCategory: string
}

/** What one run comes to. */
export interface AirCounts {
  readonly hoursCount: number
  readonly airMostC: number
  readonly airLeastC: number
  /** Mean over the hottest 24 h. */
  readonly airDayMeanC: number
  readonly faces: readonly FaceWet[]
  /** Hours in which any face is wet, and in which any is frosted. */
  readonly anyWetH: number
  readonly anyFrostH: number
  readonly gearDewH: number
  readonly gearDewMostGPerM2: number
  readonly gearDewAtH: number
  /** Gear's least height over the dew point. */
  readonly gearLeastOverDewK: number
  /** Highest mean of 24 h of the relative humidity. */
  readonly relativeDayMeanPct: number
  readonly relativeDayMeanAtH: number
  readonly fellKg: number
  readonly fellOnGearKg: number
  readonly fellOnHoodsKg: number
  readonly dripEventsCount: number
  readonly heaterKWh: number
  readonly heaterFullH: number
  readonly fanKWh: number
}

export interface AirMonth {
  /** 0: January. */
  readonly month: number
  readonly outsideMeanC: number
  readonly airMeanC: number
  readonly airMostC: number
  readonly airLeastC: number
  readonly relativeMeanPct: number
  readonly roofWetH: number
  readonly roofFrostH: number
  readonly roofMostGPerM2: number
  readonly fellKg: number
  readonly heaterKWh: number
  readonly fanKWh: number
}

/** A year at one end of what nobody measured. */
export interface AirYear {
  readonly end: AirEnd
  /** What this end takes, in words. */
  readonly said: string
  readonly counts: AirCounts
  readonly gear: readonly GearHours[]
  readonly months: readonly AirMonth[]
  /** Humidity of the air at the gear: the room's, or the cabinet's where it is heated. */
  readonly atGear: { readonly dayMeanPct: number; readonly dayMeanAtH: number; readonly monthMeanPct: number }
  readonly wetnessInside: Wetness
  readonly wetnessOutside: Wetness
  readonly steelInside: SteelLoss
  readonly steelOutside: SteelLoss
  /** Highest of the year, and at its end. Null: no wood in it. */
  readonly mould: { readonly mostRatio: number; readonly endRatio: number } | null
  /** What a breaker of rating 1 still holds at the hottest hour under load, and how hot it is at it. Null: never loaded. */
  readonly breaker: { readonly airC: number; readonly atH: number; readonly holdsFrac: number } | null
  /** The same year under the colder of two published clear skies; null where the roof is far from its limit or beyond it, or the heat of the sky was measured. */
  readonly colderSky: { readonly roofMostGPerM2: number; readonly fellKg: number; readonly fellOnGearKg: number } | null
  /** The largest, at most 24, by time. */
  readonly drips: readonly DripEvent[]
  /** What lies behind the most water under the roof: a night, or hours of a day, as `what` says. Null: it stayed dry. */
  readonly worstNight: AirMoment | null
  readonly hottestHour: AirMoment
  readonly map: AirMap
  /** A week around the worst night, or the wettest hours, and one around the hottest hour. */
  readonly spells: readonly AirSpell[]
  /** How well the books of the run closed. */
  readonly energyResidualFrac: number
  readonly waterResidualFrac: number
}

/** The runs beside the design year, by their names in `weather`. */
export type ShortRun = RunName

/** A short run beside the year, never counted into it. */
export interface AirShort {
  readonly run: ShortRun
  readonly said: string
  readonly ends: Readonly<
    Record<
      AirEnd,
      {
        readonly counts: AirCounts
        readonly gear: readonly GearHours[]
        readonly drips: readonly DripEvent[]
      }
    >
  >
  /** Every hour of it that counts, at the worse end. */
  readonly spell: AirSpell
  readonly spellEnd: AirEnd
}

export interface AirBoxResult {
  readonly box: string
  readonly weather: AirWeatherUsed
  /** For the map: outside, one number an hour. */
  readonly outsideC: readonly number[]
  readonly outsideRelativePct: readonly number[]
  readonly ends: Readonly<Record<AirEnd, AirYear>>
  /** The end with more water on gear and roof: the one to draw where there is room for one. */
  readonly wetterEnd: AirEnd
  readonly hotterEnd: AirEnd
  /** Hottest air at the breakers in an hour under load, of both ends and the hot week, up to a whole degree: circuits are judged in it. */
  readonly loadedMostC: number | null
  readonly shorts: readonly AirShort[]
  /** Openings that air passes by pressure, as the run took them; months (0 to 11) in which they stand in their winter position. */
  readonly openings?: readonly {
    readonly id: string
    readonly side: Side
    readonly areaM2: number
    readonly heightM: number
    readonly winterFrac: number
  }[]
  readonly winterMonths?: readonly number[]
}

export interface AirResult {
  /** Those that could be taken through a year. */
  readonly boxes: readonly AirBoxResult[]
}

/** Findings, the workings they name, and what drawings, sheets and screens read. */
export interface AirAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly assumed: readonly Assumption[]
  readonly result: AirResult
}

/** What still fails of a set: which kind, by how many steps that matter (3 K; the limit itself), and in which run. */
export interface AirFail {
  readonly kind: 'hot' | 'cold' | 'room cold' | 'roof' | 'drip' | 'dew' | 'humid' | 'mould' | 'heater'
  readonly byRatio: number
  readonly in: string
}

/** How the measures of a box were chosen, counted. */
export interface AirTried {
  /** Each choice in words, in the order of the menu. */
  readonly chosen: readonly string[]
  readonly holds: boolean
  /** Of the set that came nearest, where none holds; empty where one does. */
  readonly still: readonly AirFail[]
  readonly firstMoney: number
  /** Heater and fan in the year, at the end that takes more. Null: no set holds. */
  readonly yearlyKWh: number | null
  /** First cost and energy over the stay. Null: the price of energy is not known, or first cost was asked for. */
  readonly overStayMoney: number | null
  /** Sets that were run, runs of them, and how many of these were whole years; hours of the box altogether. */
  readonly setsTriedCount: number
  readonly runsCount: number
  readonly yearsCount: number
  readonly hoursRunH: number
  /** Sets passed over because one like them in all that matters had failed. */
  readonly setsPassedCount: number
  readonly setsOnMenuCount: number
  /** No cheaper set of the menu holds. False: the counted work ended first. */
  readonly proven: boolean
  /** Price rows that are missing, whose measures were not on the menu. */
  readonly unpriced: readonly string[]
}

/** What a box comes to in a year, by its harms and what is spent against them. */
export interface RemedyAmounts {
  /** Hours in which anything is beyond what it stands: gear too hot or too cold, water on gear, a roof that may drip. */
  readonly wrongH: number
  readonly hotH: number
  readonly coldH: number
  /** Hours with water on the gear. */
  readonly dewH: number
  /** Hours with a wet or frosted roof, and those of them with frost. */
  readonly wetH: number
  readonly frostH: number
  /** Most that hung under the roof. */
  readonly mostGPerM2: number
  readonly fellL: number
  readonly onGearL: number
  readonly heaterKWh: number
  readonly fanKWh: number
}

/** One measure of the table, alone or on top of those above it. Amounts are means over the years. */
export interface RemedyRow {
  readonly id: string
  readonly name: string
  readonly after: RemedyAmounts
  /** What it costs at once; null: a price is missing. */
  readonly money: number | null
  readonly note: string | null
}

/** What each remedy buys one box, over years that no job was designed for. */
export interface RemedyTable {
  readonly box: string
  readonly currency: string
  readonly yearsCount: number
  readonly base: { readonly name: string; readonly after: RemedyAmounts }
  /** Each against the base. */
  readonly alone: readonly RemedyRow[]
  /** One on top of the other, in the order of what they pay. */
  readonly stacked: readonly RemedyRow[]
  /** Of the design as it is: amounts, and years in which nothing fails at either end. */
  readonly design: {
    readonly name: string
    readonly after: RemedyAmounts
    readonly heldYearsCount: number
    /** Years that failed, by what. */
    readonly failed: readonly { readonly year: number; readonly kinds: readonly AirFail['kind'][] }[]
  }
}
