import { SIDES } from '../../job/index.ts'
import type { BoxFace, BoxModel, FaceLayer } from './types.ts'

/** Boxes for tests and benches: an invented 20 ft box, bare or foamed, and the light building of the published year cases. */

const STEEL = (thicknessM: number): FaceLayer => ({
  what: 'steel',
  resistanceM2KPerW: thicknessM / 45,
  heatJPerM2K: thicknessM * 7850 * 460,
  nodesCount: 1,
})
export const foamLayer = (thicknessM: number): FaceLayer => ({
  what: 'foam',
  resistanceM2KPerW: thicknessM / 0.028,
  heatJPerM2K: thicknessM * 40 * 1450,
  nodesCount: 3,
})
const PLYWOOD: FaceLayer = {
  what: 'plywood',
  resistanceM2KPerW: 0.028 / 0.15,
  heatJPerM2K: 0.028 * 600 * 1600,
  nodesCount: 4,
}

/** A bare 20 ft box with two vents, 200 kg of gear and a plywood floor over a gap; foam of the thickness told on roof and walls. */
export function sampleBox(foamM = 0): BoxModel {
  const areas = [14.1, 14.1, 5.6, 5.6, 13.9, 13.9]
  const perimeters = [17.3, 17.3, 10.1, 10.1, 17, 17]
  const faces = SIDES.map((side, i): BoxFace => {
    const floor = side === 'floor'
    const roof = side === 'roof'
    const foamed = foamM > 0 && !floor
    return {
      side,
      areaM2: areas[i]!,
      developedRatio: floor ? 1 : 1.065,
      perimeterM: perimeters[i]!,
      middleM: roof ? 2.6 : floor ? 0.15 : 1.4,
      absorptanceFrac: 0.75,
      outsideEmittanceFrac: 0.9,
      roughnessRatio: 1.11,
      layers: floor ? [PLYWOOD] : [STEEL(roof ? 0.002 : 0.0016), ...(foamed ? [foamLayer(foamM)] : [])],
      insideEmittanceFrac: 0.9,
      bareFrac: foamed ? 0.04 : 0,
      holdsKgPerM2: floor ? Number.POSITIVE_INFINITY : roof ? 0.54 : 0.12,
      sees: floor ? 'air' : 'sky',
      shade: null,
    }
  })
  return {
    box: 'sample',
    volumeM3: 33.2,
    floorAreaM2: 13.9,
    insideHeightM: 2.39,
    doorFacesDeg: 0,
    faces,
    openings: [
      { id: 'low', side: 'blind end', areaM2: 0.01, heightM: 0.3, dischargeRatio: 0.45, winterFrac: 0.5 },
      { id: 'high', side: 'left', areaM2: 0.01, heightM: 2.1, dischargeRatio: 0.45, winterFrac: 0.5 },
    ],
    leakM3SAt1Pa: (5 * 33.2) / 3600 / 12.7,
    leakExponent: 0.65,
    fan: null,
    heater: null,
    gear: { heatJPerK: 145_000, toAirWPerK: 30, areaM2: 6 },
    floor: { dryKgPerM2: 16.8, topM: 0.002, thicknessM: 0.028, vapourResistanceRatio: 150, paintedRatio: 1 },
    gearHeatW: new Float64Array(288).fill(100),
    airHeatW: new Float64Array(288),
    waterKgS: new Float64Array(288).fill(0.03 / 3600),
    doorOpenS: Float64Array.from({ length: 24 }, (_, h) => (h === 7 || h === 16 ? 60 : 0)),
    doorAreaM2: 1.8,
    doorHeightM: 2,
    winterMonths: [0, 1, 2, 11],
    terrain: 'country',
    windHeightM: 10,
    groundReflectanceFrac: 0.2,
    snowReflectanceFrac: 0.65,
    skirted: false,
    below: [{ id: 'panel', areaM2: 0.6, hooded: false }],
  }
}
