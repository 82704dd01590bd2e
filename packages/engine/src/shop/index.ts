export {
  type CutAnswer,
  type CutBar,
  type CutFile,
  type CutLack,
  type CutPiece,
  type CutPlan,
  type CutRequest,
  cutAnswer,
  cutFindings,
  cutPlan,
  readCutFile,
} from './cut/index.ts'
