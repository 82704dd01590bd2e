import type { AirDesign, SkinDesign } from '../../job/index.ts'
import { boxModelOf, heatOf, type ModelTask } from '../model/box-model.ts'
import { type EndName, MODEL_ENDS } from '../model/ends.ts'
import type { GearHeat } from '../model/gear-heat.ts'
import type { BoxModel } from '../year/types.ts'

/** A box as it is laid out, to be built with other measures. */
export type VariantTask = Omit<ModelTask, 'end' | 'heat'> & {
  /** Openings that are cut for these measures. */
  readonly skinOf: (air: AirDesign) => SkinDesign
}

/** Models of a box with other measures: what no measure changes is worked out once. */
export function variantsOf(task: VariantTask): (air: AirDesign, end: EndName) => BoxModel {
  const heats = new Map<EndName, GearHeat>()
  const skins = new Map<string, SkinDesign>()
  const models = new Map<string, BoxModel>()
  return (air, end) => {
    const key = `${end} ${JSON.stringify(air)}`
    const made = models.get(key)
    if (made !== undefined) return made
    const heat = heats.get(end) ?? heatOf({ ...task, end: MODEL_ENDS[end] })
    heats.set(end, heat)
    const cut = JSON.stringify([air.vents, air.roofFoamM > 0 || air.wallFoamM > 0])
    const skin = skins.get(cut) ?? task.skinOf(air)
    skins.set(cut, skin)
    const { model } = boxModelOf({ ...task, build: { ...task.build, air, skin }, end: MODEL_ENDS[end], heat })
    models.set(key, model)
    return model
  }
}
