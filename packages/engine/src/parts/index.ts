export { type OwnKind, type OwnLoad, ownLoads } from './own-loads.ts'
export type { Price, Prices } from './prices.ts'
