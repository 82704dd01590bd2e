export { bookContent } from './book-content.ts'
export { costCsv } from './build-csv.ts'
export { bookFiles } from './book-files.ts'
export type {
  Block,
  BookContent,
  BookOptions,
  Column,
  Inline,
  PanelWay,
  Reader,
  Sheet,
  Span,
  WorkingBlock,
  WorkingRow,
} from './content.ts'
export { CAUTION } from './content.ts'
export { type DrawingFile, type DrawingPaper, drawingFiles } from './drawing-files.ts'
export { usualPaper } from './frame.ts'
export { dateLists, type JobFile, jobLists } from './job-lists.ts'
export { isReader, READER_WORDS, READERS } from './readers.ts'
export { type OfferInput, offerContent } from './offer.ts'
