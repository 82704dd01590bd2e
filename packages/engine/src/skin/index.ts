export { answerSkin } from './answer.ts'
export { designSkin, type SkinRequest } from './design.ts'
export { cordOutsideMm } from './entry.ts'
export type { BoxSkin, ExitRow, FramePiece, OpeningRow, SideCut, SkinResult, SkinStep } from './result.ts'
