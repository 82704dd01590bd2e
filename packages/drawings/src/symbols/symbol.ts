import type { Item, Point } from '../scene.ts'

export type SymbolName =
  | 'source'
  | 'transformer'
  | 'generator'
  | 'breaker'
  | 'fuse'
  | 'earth'
  | 'outlet'
  | 'meter'
  | 'motor'
  | 'heater'
  | 'load'

/** A graphic symbol as the standard draws it, fed from above. Drawn downward from the point where its upper line ends. */
export interface GraphicSymbol {
  readonly name: SymbolName
  /** In words, for the sheet of symbols. */
  readonly words: string
  /** How much of the line it takes; 0 where nothing leaves below. */
  readonly heightMm: number
  draw(atMm: Point): readonly Item[]
}

export interface SymbolSet {
  /** As cited on paper. */
  readonly standard: string
  readonly symbols: Readonly<Record<SymbolName, GraphicSymbol>>
}
