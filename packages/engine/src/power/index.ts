export type { Answer } from './answer.ts'
export type { Inputs } from './inputs.ts'
