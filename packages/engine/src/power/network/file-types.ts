import type { Complex } from '../../kernel/index.ts'
import type { LoadModel } from './model.ts'

/** Name of the ground in a network file: every other wire name is a wire. */
export const GROUND = 'g'

export interface FileConfiguration {
  readonly wires: readonly string[]
  readonly ohmPerM: readonly (readonly Complex[])[]
  readonly siemensPerM: readonly (readonly Complex[])[] | null
}
export interface FileSource {
  readonly node: string
  readonly volts: Readonly<Record<string, Complex>>
}
export interface FileLine {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly lengthM: number
  readonly configuration: string
}
export type Connection = 'YY' | 'DY' | 'YD' | 'DD' | 'single' | 'centre tap'
export interface FileTransformer {
  readonly id: string
  readonly from: string
  readonly to: string
  /** Of the whole bank. */
  readonly ratedVA: number
  /** Between lines; of a single or centre-tapped one, across the winding. */
  readonly primaryV: number
  readonly secondaryV: number
  readonly resistanceFrac: number
  readonly reactanceFrac: number
  readonly connection: Connection
  /** Star point of a wye side: `g`, a wire of the node, or `floating`. */
  readonly primaryStar: string
  readonly secondaryStar: string
  /** Single and centre tap: the two primary wires; single: the two secondary wires, centre tap: three. */
  readonly primaryWires: readonly string[]
  readonly secondaryWires: readonly string[]
}
export interface FileRegulator {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly wires: readonly string[]
  readonly taps: readonly number[]
  readonly stepFrac: number
}
export interface FileSwitch {
  readonly from: string
  readonly to: string
  readonly wires: readonly string[]
  readonly closed: boolean
}
export interface FileLoad {
  readonly id: string
  readonly node: string
  readonly from: string
  readonly to: string
  readonly sVA: Complex
  readonly nominalV: number
  readonly model: LoadModel
}
export interface FileEarthed {
  readonly node: string
  readonly wire: string
  readonly ohm: number
}

/** One network, all sections filled. */
export interface FileCase {
  readonly sources: readonly FileSource[]
  readonly lines: readonly FileLine[]
  readonly transformers: readonly FileTransformer[]
  readonly regulators: readonly FileRegulator[]
  readonly switches: readonly FileSwitch[]
  readonly loads: readonly FileLoad[]
  readonly earthed: readonly FileEarthed[]
}

/** What a network file holds: its own network and named cases, each with the sections it replaced. */
export interface NetworkFile {
  readonly title: string
  readonly source: string
  readonly provenance: string
  readonly frequencyHz: number
  /** Base and reference of what is reported, as the file states them. */
  readonly base: string
  readonly reference: string
  readonly configurations: Readonly<Record<string, FileConfiguration>>
  /** By name; a file without `cases` has the one case `as given`. */
  readonly cases: Readonly<Record<string, FileCase>>
}
