export type { Price, Prices } from './prices.ts'
