export type { BodyFigure, BodySide, BoxBody, Corrugation, DoorLeaf, Flat, Member } from './result.ts'
