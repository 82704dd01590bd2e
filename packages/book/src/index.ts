export type { RemediesMade } from '@plugstead/drawings'
export { bookContent } from './book-content.ts'
export { bookFiles, footTitle, issueLines, type SetBlock, type SetRow, setBlock } from './book-files.ts'
export { costCsv } from './build-csv.ts'
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
export { frameScene, KEY_NET, keySideScene, PAPERS, usualPaper } from './frame.ts'
export { dateLists, type JobFile, jobLists } from './job-lists.ts'
export { type NotTold, notTold, type OfferInput, offerContent } from './offer.ts'
export { forReader, isReader, READER_WORDS, READERS } from './readers.ts'
export { workingBlocks } from './working-family.ts'
