export {
  depositKgPerM2S,
  FUSION_J_PER_KG,
  heldKgPerM2S,
  latentJPerKg,
  massFilmMPerS,
  meltedKgPerM2,
  SUBLIMATION_J_PER_KG,
  thawedC,
  VAPORISATION_J_PER_KG,
  VAPOUR_GAS_J_PER_KGK,
  vapourKgPerM3,
} from './film.ts'
