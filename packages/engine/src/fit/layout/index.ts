export { type Arranged, arranged, type FitRequest, hungUp, layoutFor } from './design.ts'
