import fc from 'fast-check'
import { sampleBox } from './sample-boxes.ts'
import type { BoxModel } from './types.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Boxes of many kinds for properties: bare or foamed, light or dark, tight or drafty, on a gap or on ground, with vents, fan, heater, second roof. */
export const anyBox: fc.Arbitrary<BoxModel> = fc
  .record({
    foamM: fc.constantFrom(0, 0.025, 0.08),
    darkFrac: fc.array(between(0.15, 0.95), { minLength: 6, maxLength: 6 }),
    inside: between(0.1, 0.95),
    shade: fc.boolean(),
    onGround: fc.boolean(),
    leak: between(0, 0.03),
    vents: fc.array(
      fc.record({
        side: fc.constantFrom('left', 'right', 'door end', 'blind end'),
        areaM2: between(0.002, 0.15),
        heightM: between(0.1, 2.3),
        dischargeRatio: between(0.2, 0.65),
        winterFrac: between(0.1, 1),
      }),
      { maxLength: 3 },
    ),
    fan: fc.boolean(),
    heaterAt: fc.constantFrom('room', 'cabinet', null),
    gearKJ: between(20, 400),
    gearW: between(0, 600),
    waterKgPerH: between(0, 0.3),
    wood: fc.boolean(),
    turnDeg: between(0, 360),
  })
  .map((of) => {
    const box = sampleBox(of.foamM)
    return {
      ...box,
      doorFacesDeg: of.turnDeg,
      faces: box.faces.map((f, i) => ({
        ...f,
        absorptanceFrac: of.darkFrac[i]!,
        insideEmittanceFrac: of.inside,
        sees: f.side !== 'floor' ? f.sees : of.onGround ? ('ground' as const) : ('air' as const),
        shade: of.shade && f.side === 'roof' ? { coversFrac: 0.9, absorptanceFrac: 0.6 } : null,
      })),
      leakM3SAt1Pa: of.leak,
      openings: of.vents.map((v, i) => ({ ...v, id: `vent ${i}` })) as BoxModel['openings'],
      fan: of.fan
        ? {
            ...{ side: 'right', heightM: 2, blows: 'out', freeFlowM3S: 0.08, shutPressurePa: 50, powerW: 30, onAboveC: 15 },
            ...{ drierKgPerKg: 0.001, solar: null },
          }
        : null,
      heater: of.heaterAt === null ? null : { at: of.heaterAt, powerW: 400, onBelowC: 4, deadBandK: 1, dewMarginK: 2 },
      gear: { ...box.gear, heatJPerK: of.gearKJ * 1000 },
      gearHeatW: new Float64Array(288).fill(of.gearW),
      waterKgS: new Float64Array(288).fill(of.waterKgPerH / 3600),
      floor: of.wood ? box.floor : { ...box.floor, dryKgPerM2: 0 },
    }
  })
