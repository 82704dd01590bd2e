export { type CutAnswer, cutAnswer, cutFindings } from './cut-answer.ts'
export { type CutFile, readCutFile } from './cut-file.ts'
export { cutPlan } from './plan.ts'
export type { CutBar, CutLack, CutPiece, CutPlan, CutRequest } from './types.ts'
