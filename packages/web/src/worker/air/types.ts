import type { MapQuantity, RemediesMade } from '@plugstead/drawings'
import type {
  AirCounts,
  AirEnd,
  AirMonth,
  AirWeatherUsed,
  DripEvent,
  RemedyPart,
  RemedyStep,
  RemedyTable,
  ShortRun,
  YearsHeld,
} from '@plugstead/engine/air'
import type { AirChoice, VentSide } from '@plugstead/engine/job'
import type { Problem, Verdict } from '@plugstead/engine/kernel'
import type { Between, ColumnKey, TableHead } from '@plugstead/engine/weather'
import type { Choice, RoomDrawing } from '../protocol.ts'

/** The year as the box is planned, or with what is being tried. */
export type AirOf = 'stands' | 'tried'
export type AirUnits = 'metric' | 'us'

export interface AirAsked {
  /** Null: the first. */
  readonly box: string | null
  readonly of: AirOf
  /** Null: the end with more water. */
  readonly end: AirEnd | null
}

/** Days of the year, or one of the short runs beside it. */
export type AirPick = { readonly kind: 'week'; readonly fromH: number } | { readonly kind: 'short'; readonly run: ShortRun }

export interface GlassAsked {
  readonly units: AirUnits
  readonly widthPx: number
  readonly letterPx: number
}

/** Calendar of the hours of a year: what is said of an hour is said by it. */
export interface AirClockView {
  readonly firstDay: number
  readonly firstHour: number
  readonly hoursCount: number
}

/** What the room says of a box's year before anything is touched. */
export interface AirRoomView extends AirClockView {
  readonly box: string
  readonly boxes: readonly string[]
  readonly end: AirEnd
  readonly wetterEnd: AirEnd
  /** What each end takes, in words. */
  readonly said: Readonly<Record<AirEnd, string>>
  readonly counts: Readonly<Record<AirEnd, AirCounts>>
  readonly months: readonly AirMonth[]
  readonly night: (MomentView & { readonly byNight: boolean }) | null
  readonly hottest: MomentView
  readonly drips: readonly DripEvent[]
  readonly shorts: readonly ShortView[]
  readonly weather: Pick<AirWeatherUsed, 'from' | 'named' | 'seed' | 'assumed' | 'place'>
  /** What keeps the box dry and cool, and what it may be instead. */
  readonly choices: readonly (Choice & { readonly name: AirChoice })[]
}

/** A moment, and the days in which it lies. */
export interface MomentView {
  readonly atH: number
  readonly when: string
  readonly fromH: number
}

export interface ShortView {
  readonly run: ShortRun
  readonly said: string
  readonly counts: AirCounts
  readonly hoursCount: number
  readonly end: AirEnd
}

export interface AirMapView {
  readonly drawing: RoomDrawing
  readonly plot: {
    readonly left: number
    readonly top: number
    readonly dayPx: number
    readonly hourPx: number
    readonly daysCount: number
  }
}

export type AirMapAsked = AirAsked & GlassAsked & { readonly quantity: MapQuantity }

export type AirHourAsked = AirAsked &
  GlassAsked & {
    readonly pick: AirPick
    /** Hour of the year, or of the short run. */
    readonly atH: number
    /** Width of the faces and of the section; the days take `widthPx`. */
    readonly besidePx: number
  }

/** A vent as it is drawn, and how far it can be moved. */
export interface VentView {
  readonly id: string
  /** The low one; else the high one, or the hole of the fan. */
  readonly low: boolean
  readonly side: VentSide
  /** Middle over the floor. */
  readonly upMm: number
  readonly widthMm: number
  readonly heightMm: number
  /** Ends of the wall's sheet over the floor: all of the opening lies between them. */
  readonly sheetMm: { readonly low: number; readonly high: number }
  /** Where it stands in the section; null: not in one of its walls. */
  readonly at: { readonly x: number; readonly y: number; readonly heightPx: number; readonly pxPerM: number } | null
}

export interface AirHourView {
  /** First hour of the days shown, how many, and what they are called. */
  readonly fromH: number
  readonly hoursCount: number
  readonly title: string
  /** “17 January, 06:00”. */
  readonly when: string
  /** What these days come to, one sentence. */
  readonly sum: string
  readonly days: RoomDrawing
  /** Where its hours stand. */
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number } | null
  readonly faces: RoomDrawing
  readonly section: RoomDrawing
  readonly vents: readonly VentView[]
}

export type AirReasonsAsked = AirAsked & GlassAsked

export interface AirReasonsView {
  readonly night: RoomDrawing | null
  readonly hottest: RoomDrawing
}

export type AirTrial = Readonly<Partial<Record<AirChoice, string>>>

export interface AirTryAsked {
  readonly box: string | null
  /** Null: nothing is tried any longer. */
  readonly pins: AirTrial | null
}

/** What a box's year comes to with something changed, beside what it comes to now. */
export type AirTryView =
  | {
      readonly is: 'answer'
      readonly stands: Readonly<Record<AirEnd, AirCounts>>
      readonly tried: Readonly<Record<AirEnd, AirCounts>>
      /** Findings whose verdict moves. */
      readonly moved: readonly { readonly code: string; readonly what: string; readonly was: Verdict; readonly is: Verdict }[]
      readonly worst: { readonly was: Verdict; readonly is: Verdict }
      readonly tookMs: number
    }
  | { readonly is: 'unread'; readonly wanted: readonly string[] }

export interface WeatherFileAsked {
  readonly name: string
  readonly text: string
  /** Which column is what, as the text of a mapping. Absent: the file says it itself. */
  readonly columns?: string
  /** Where the file has no sun and no cloud, they come from a year made of the nearest climate. */
  readonly fill?: boolean
}

export interface WeatherTableAsked {
  /** Its beginning. */
  readonly text: string
  /** Null: as it seems. */
  readonly between: Between | null
  readonly headings: boolean | null
  readonly skipLines: number
}

export type WeatherTableView = TableHead & { readonly units: Readonly<Record<ColumnKey, readonly string[]>> }

/** What was read of a weather file. */
export interface WeatherFileView {
  readonly named: string
  readonly place: string
  readonly hoursCount: number
  /** What was filled, dropped, worked out; what its own rows say against it. */
  readonly notes: readonly string[]
  readonly findings: readonly { readonly verdict: Verdict; readonly said: string }[]
}

export type WeatherFileAnswer =
  | { readonly ok: true; readonly value: WeatherFileView }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** A box of a judged design, for workers that do pieces of its table of remedies. */
export interface RemedyTask {
  /** Number of the answer it is of. */
  readonly at: number
  readonly box: string
  readonly given: { readonly file: string; readonly text: string }
  readonly design: string
  readonly results: string
}

export type RemediesBegun =
  | { readonly is: 'begun'; readonly alone: readonly RemedyStep[]; readonly stacked: readonly RemedyStep[] }
  | { readonly is: 'lacks'; readonly lacks: readonly string[] }

export interface RemedyViewAsked {
  readonly units: AirUnits
  readonly alone: readonly RemedyPart[]
  readonly stacked: readonly RemedyPart[]
  readonly widthPx: number
  readonly letterPx: number
}

/** What each measure buys, of the years that were run. */
export interface RemedyView {
  readonly table: RemedyTable
  /** The design itself was run too. */
  readonly hasDesign: boolean
  readonly aloneCount: number
  readonly stackedCount: number
  readonly drawing: RoomDrawing
}

export type YearsBegun =
  | { readonly is: 'begun'; readonly years: readonly number[] }
  | { readonly is: 'lacks'; readonly lacks: readonly string[] }

/** In how many made years a box holds, in words. */
export interface YearsView {
  readonly verdict: Verdict
  readonly said: string
}

export interface YearsFound {
  readonly held: YearsHeld
  readonly view: YearsView
}

/** Found by other workers, to be kept with the answer of that number: its papers hold it from then on. */
export interface KeepAirAsked {
  readonly at: number
  readonly box: string
  readonly years?: YearsHeld
  readonly remedies?: RemediesMade
}
