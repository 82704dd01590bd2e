import type { HeadingRead, LogSensor } from '@plugstead/engine/air'
import type { DocumentEdit } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import type { TableHead } from '@plugstead/engine/weather'
import type { RoomDrawing } from '../protocol.ts'
import type { GlassAsked, RemedyTask, WeatherFileAsked, WeatherTableAsked } from './types.ts'

/** A logger’s list and what it is laid beside. */
export interface LoggerAsked extends GlassAsked {
  readonly task: RemedyTask
  readonly log: { readonly name: string; readonly text: string }
  /** Which column is what, as the text of a mapping; null: the headings say it. */
  readonly mapping: string | null
  /** Weather of those days, also shorter than a year; null: the made year of the place. */
  readonly weather: WeatherFileAsked | null
}

export interface LoggerRow {
  readonly name: string
  readonly place: LogSensor['place']
  /** Of the differences: K, or points of humidity. */
  readonly unit: 'K' | '%'
  readonly hoursCount: number
  /** Ours less the logger’s. */
  readonly bias: number
  readonly rms: number
  readonly worst: { readonly when: string; readonly logged: number; readonly ours: number }
  /** With what was found; null: nothing was fitted. */
  readonly fitted: { readonly bias: number; readonly rms: number } | null
}

export interface LoggerUnknown {
  readonly id: string
  /** As the box is taken to be, and the least and the most that it may be where nobody told. A share as a fraction. */
  readonly before: { readonly value: number; readonly low: number; readonly high: number }
  /** As the list tells it, with its band of 95 %. */
  readonly found: { readonly value: number; readonly low: number; readonly high: number }
  readonly unit: string
  readonly told: boolean
  readonly why: string
  /** The unknown it can hardly be told from. */
  readonly with: string | null
}

export interface LoggerView {
  readonly box: string
  readonly log: string
  readonly weather: string
  readonly span: { readonly from: string; readonly to: string }
  readonly notes: readonly string[]
  readonly rows: readonly LoggerRow[]
  readonly unknowns: readonly LoggerUnknown[]
  /** Why nothing was fitted; empty: it was. */
  readonly fitless: string
  /** What no value of the unknowns explains. */
  readonly missed: readonly string[]
  readonly readings: { readonly count: number; readonly asideCount: number } | null
  /** What keeping writes into the document; empty: nothing was told. */
  readonly edits: readonly DocumentEdit[]
  readonly drawing: RoomDrawing
}

export type LoggerAnswer =
  | { readonly is: 'done'; readonly view: LoggerView }
  | { readonly is: 'refused'; readonly of: 'log' | 'weather'; readonly problems: readonly Problem[] }
  | { readonly is: 'lacks'; readonly lacks: readonly string[] }

export type LogTableAsked = Pick<WeatherTableAsked, 'text' | 'between'> & { readonly skipLines: number | null }

/** Headings and first rows of a list, and what its headings say. */
export interface LogTableView extends Omit<TableHead, 'columns'> {
  readonly skipLines: number
  readonly columns: readonly {
    readonly heading: string
    readonly cells: readonly string[]
    readonly guess: { readonly what: HeadingRead['place'] | 'time' | 'date'; readonly unit: HeadingRead['unit'] } | null
  }[]
}
