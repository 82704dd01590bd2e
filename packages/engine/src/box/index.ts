export { boxBody } from './body.ts'
export { bodyFindings } from './findings.ts'
export {
  bottomFittingLoad,
  floorLineLoad,
  postArea,
  proofLoads,
  roofProof,
  sideWallsMass,
  stackingPerPost,
  wallProof,
  widthMargin,
} from './loads.ts'
export { PADS } from './pads.ts'
export { developed, type Profile, type SheetSection, sheetMass, sheetSection } from './profile.ts'
export type { BodyFigure, BodySide, BoxBody, Corrugation, DoorLeaf, Flat, Member } from './result.ts'
export { insideOf } from './sizes.ts'
