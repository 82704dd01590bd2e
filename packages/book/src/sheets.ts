/** Sheets as data, for a screen: nothing here sets type or touches a machine. */
export type { Block, Column, PanelBlock, PanelWay, Sheet } from './content.ts'
export { onceForPhases } from './phases.ts'
export { questionSheets, type SheetedQuestion } from './question-sheets.ts'
export type { BookInput } from './results.ts'
export { circuitsSheets } from './sheets/circuits.ts'
export { oneLineSheets } from './sheets/one-line.ts'
