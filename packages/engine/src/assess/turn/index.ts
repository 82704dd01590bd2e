export { turningInputs } from './inputs.ts'
export { turningPoints } from './turn.ts'
export type { TurningPoint, TurningPoints } from './types.ts'
