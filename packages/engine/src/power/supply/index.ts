export type {
  Bill, BillLine, BondPoint, BondPosition, BoxSupply, GeneratorSizing, Interim, OfferRow, OfferTransformer, SupplyResult,
} from './result.ts'
