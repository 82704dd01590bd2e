export { type FitRequest, layoutFor } from './design.ts'
