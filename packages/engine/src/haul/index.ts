export { answerHaul } from './answer.ts'
export { designHaul } from './design.ts'
export type {
  AnchorPlan,
  ForkPlan,
  HaulAnswer,
  HaulBox,
  HaulResult,
  LashingPoint,
  Leg,
  MassCentre,
  MassItem,
  PadPlan,
  RoofSnow,
  SecuringPlan,
  SlingPlan,
  SnowFramePlan,
  TiltPlan,
  WindEnd,
} from './result.ts'
export { HAUL_READS } from './setting.ts'
