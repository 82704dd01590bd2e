export { answerShop, type ShopAnswer, type ShopInputs } from './answer.ts'
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
export { type LabourItem, labourEach, racewayItem, type ShopItem, shopEach, spreadOf, wireItem } from './hours/units.ts'
export type {
  BendRow,
  Bill,
  BillLine,
  BoxShop,
  BuildStep,
  HoursSheet,
  RacewaySheet,
  SectionCut,
  ShopFactors,
  ShopResult,
  WallHoles,
  WirePull,
} from './result.ts'
