import type { Job } from './types.ts'

/**
 * A hand switch that puts everything on past any control: somebody asked for it. One that is only assumed (people do it in a cold spell)
 * passes timers, but an interlock in the design is there to hold it back.
 */
export const allOnByHand = (job: Job): boolean =>
  job.needs.manualAllOn && !job.assumed.some((a) => a.path === 'needs.manual-all-on')
