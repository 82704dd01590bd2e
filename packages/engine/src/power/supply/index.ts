export { answerSupply } from './answer.ts'
export { billFor, energyMoney, type Metered } from './bill.ts'
export { type BondFacts, bondPosition, bondsIn } from './bonds.ts'
export { supplyCases } from './cases.ts'
export { type Derated, deratedSet } from './derate.ts'
export { fuelLPerH } from './fuel.ts'
export { generatorSizing, startDipFrac } from './generator.ts'
export { lateDaysOf, type OffersTask, rankOffers, windowPeakKW } from './offers.ts'
export type {
  Bill,
  BillLine,
  BondPoint,
  BondPosition,
  BoxSupply,
  GeneratorSizing,
  Interim,
  OfferRow,
  OfferTransformer,
  SupplyResult,
} from './result.ts'
export { heldLoad, listedTransformersKVA, smallestTransformerKVA } from './sizes.ts'
