export { boxBody } from './body.ts'
export { developed, type Profile, sheetMass, sheetSection } from './profile.ts'
export type { BodyFigure, BodySide, BoxBody, Corrugation, DoorLeaf, Flat, Member } from './result.ts'
