import { iec60617 } from './iec-60617.ts'
import { ieee315 } from './ieee-315.ts'
import type { SymbolSet } from './symbol.ts'

export type { GraphicSymbol, SymbolName, SymbolSet } from './symbol.ts'

/** Graphic symbols by the standard a rule set names. */
export const SYMBOL_SETS: Readonly<Record<'IEEE 315' | 'IEC 60617', SymbolSet>> = { 'IEEE 315': ieee315, 'IEC 60617': iec60617 }
