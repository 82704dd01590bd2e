export type {
  BoxDesign, Circuit, Cord, Design, Device, Electrode, Leg, OwnTransformer, Panel, Run, Shock, SizeName, SourceMode, Staging, StagingControl, Wire,
} from './design.ts'
export type {
  Assumption, BoxWanted, BuiltBox, Job, LoadKind, MotorPlate, MotorStart, Offer, OfferKind, Phase, Pin, Plug, RuleSetId, Site, Span, SystemId, Tariff,
} from './types.ts'
