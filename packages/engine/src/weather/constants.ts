import { figure } from './shelf.ts'

const constant = (symbol: string): number => figure('constants', symbol).value

/** 0 °C on the scale that begins at absolute zero. By definition. */
export const ZERO_C_K = 273.15
/** Ice, water and vapour stand together; the rows for ice and for liquid meet here to 6 parts in 10⁹. @source ITS-90. Provenance: memory */
export const TRIPLE_POINT_C = 0.01
/** At sea level. @source ISO 2533:1975, standard atmosphere. Provenance: memory */
export const STANDARD_PRESSURE_PA = 101_325

/** Constants of physics that weather and air share, as printed in table `constants`. SI. */
export const PHYSICS = {
  stefanBoltzmannWPerM2K4: constant('sigma (Stefan-Boltzmann)'),
  dryAirJPerKgK: constant('R dry air'),
  vapourJPerKgK: constant('R water vapour'),
  molarRatio: constant('ratio of molar masses'),
  dryAirHeatJPerKgK: constant('cp dry air'),
  vapourHeatJPerKgK: constant('cp vapour'),
  vaporisationJPerKg: constant('latent heat of vaporisation at 0 C'),
  fusionJPerKg: constant('latent heat of fusion'),
  sublimationJPerKg: constant('latent heat of sublimation'),
  waterHeatJPerKgK: constant('c water'),
  iceHeatJPerKgK: constant('c ice'),
  iceKgPerM3: constant('density of ice'),
  lewisRatio: constant('Lewis number, vapour in air'),
  vapourPermeabilityKgPerMSPa: constant('vapour permeability of still air at 10 C'),
  solarWPerM2: constant('solar constant'),
  gravityMPerS2: constant('g'),
} as const
