import { dewOrFrostCFast } from '../../weather/index.ts'

/** How far gear stands above the dew or frost point of the air around it, K; below 0 it takes dew or frost. Vapour pressure over 0. */
export const aboveDewK = (gearC: number, vapourPa: number): number => gearC - dewOrFrostCFast(vapourPa)
