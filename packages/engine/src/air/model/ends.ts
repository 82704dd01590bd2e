/** Which end of each thing that nobody knows a model stands at. */
export interface ModelEnd {
  readonly leak: 'tight' | 'usual' | 'leaky'
  readonly vents: 'clear' | 'half clogged'
  readonly paint: 'fresh' | 'aged'
  /** Heat of the gear: on a day when everything works, or as the mean of the days of its month. */
  readonly load: 'working day' | 'mean day'
  /** Water that people bring in. */
  readonly boots: 'dry' | 'wet'
}

export type EndName = 'hot' | 'damp' | 'cold' | 'middle'

/**
 * Ends at which a box is judged: where it gets hottest, where it stays dampest because little air passes, where it gets coldest because much
 * does, and one between.
 */
export const MODEL_ENDS: Readonly<Record<EndName, ModelEnd>> = {
  hot: { leak: 'tight', vents: 'half clogged', paint: 'aged', load: 'working day', boots: 'dry' },
  damp: { leak: 'tight', vents: 'half clogged', paint: 'fresh', load: 'mean day', boots: 'wet' },
  cold: { leak: 'leaky', vents: 'clear', paint: 'fresh', load: 'mean day', boots: 'wet' },
  middle: { leak: 'usual', vents: 'clear', paint: 'fresh', load: 'mean day', boots: 'dry' },
}
