export { designFit, type FitRequest } from './design.ts'
