export { bookContent } from './book-content.ts'
export { bookPdf } from './book-pdf.ts'
export {
  billCsv,
  costCsv,
  cutsCsv,
  hoursCsv,
  openingsCsv,
  racewaysCsv,
  strutCsv,
  wiresCsv,
} from './build-csv.ts'
export type {
  Block,
  BookContent,
  BookOptions,
  Column,
  Inline,
  PanelWay,
  Sheet,
  Span,
  WorkingBlock,
  WorkingRow,
} from './content.ts'
export { CAUTION } from './content.ts'
export { changesCsv, circuitsCsv, cordsCsv, csv, panelCsv } from './csv.ts'
export { datesCsv } from './dates-csv.ts'
export { datesIcs } from './dates-ics.ts'
export { type OfferInput, offerContent } from './offer.ts'
export { oneLineScenes } from './sheets/one-line.ts'
