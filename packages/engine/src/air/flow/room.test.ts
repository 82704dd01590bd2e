import { describe, expect, test } from 'vitest'
import { crossWindFlowM3s, fanWithNaturalM3s, type RoomInWind, roomFlow, stackFlowM3s } from './index.ts'

const STILL: RoomInWind = {
  openings: [
    { id: 'low', areaM2: 0.02, dischargeRatio: 0.6, heightM: 0.3, windPressureRatio: 0 },
    { id: 'high', areaM2: 0.02, dischargeRatio: 0.6, heightM: 2.2, windPressureRatio: 0 },
  ],
  cracks: [],
  exponentRatio: 0.65,
  fan: null,
  windMPerS: 0,
  outsideKgPerM3: 1.225,
  insideKgPerM3: 1.164,
}
const inWind = (windMPerS: number, low: number, high: number): RoomInWind => ({
  ...STILL,
  windMPerS,
  openings: [
    { ...STILL.openings[0]!, windPressureRatio: low },
    { ...STILL.openings[1]!, windPressureRatio: high },
  ],
})

describe('warmth, wind and fan through one room', () => {
  test('warmth alone is the hand rule’s to 3 %, in low and out high', () => {
    const flow = roomFlow(STILL)
    const rule = stackFlowM3s({ lowM2: 0.02, highM2: 0.02, heightM: 1.9, dischargeRatio: 0.6, insideC: 30.1, outsideC: 15 })
    expect(flow.freshM3s / rule).toBeCloseTo(1, 1)
    expect(Math.abs(flow.freshM3s / rule - 1)).toBeLessThan(0.03)
    expect(flow.openingsM3s[0]!.flowM3s).toBeGreaterThan(0)
    expect(flow.openingsM3s[1]!.flowM3s).toBeLessThan(0)
  })

  test('wind alone is Cd·A*·V·√ΔCp (case vent-09)', () => {
    const same = { ...inWind(3, 0.603, -0.364), insideKgPerM3: 1.225 }
    expect(roomFlow(same).freshM3s).toBeCloseTo(crossWindFlowM3s(0.02, 0.02, 0.6, 3, 0.967), 9)
  })

  test('wind that helps adds its pressure, wind of the same pressure against it stops the flow', () => {
    const pull = (1.225 - 1.164) * 9.80665 * 1.9
    const ratio = pull / (0.5 * 1.225 * 9)
    expect(roomFlow(inWind(3, ratio, 0)).freshM3s / roomFlow(STILL).freshM3s).toBeCloseTo(Math.SQRT2, 6)
    expect(roomFlow(inWind(3, -ratio, 0)).freshM3s).toBeLessThan(1e-9)
  })

  test('a fan that blows out of a room with vents: more than either alone, near the square rule', () => {
    const fan = { freeFlowM3s: 0.06, shutPa: 30, speedFrac: 1, blows: 'out', heightM: 2.2, windPressureRatio: 0 } as const
    const both = roomFlow({ ...STILL, fan })
    const natural = roomFlow(STILL).freshM3s
    expect(-both.fanM3s).toBeGreaterThan(0.04)
    expect(both.freshM3s).toBeGreaterThan(natural)
    expect(both.freshM3s / fanWithNaturalM3s(-both.fanM3s, natural)).toBeGreaterThan(0.85)
    expect(both.freshM3s / fanWithNaturalM3s(-both.fanM3s, natural)).toBeLessThan(1.15)
    expect(roomFlow({ ...STILL, fan: { ...fan, blows: 'in' } }).fanM3s).toBeGreaterThan(0.04)
  })

  test('cracks high and low breathe a shut room; mass in is mass out', () => {
    const cracks = [
      { at1PaM3s: 0.003, heightM: 0.2, windPressureRatio: 0.6 },
      { at1PaM3s: 0.003, heightM: 2.2, windPressureRatio: -0.4 },
    ]
    const { cracksM3s } = roomFlow({ ...STILL, openings: [], cracks, windMPerS: 4 })
    expect(cracksM3s[0]! * 1.225 + cracksM3s[1]! * 1.164).toBeCloseTo(0, 12)
    expect(cracksM3s[0]).toBeGreaterThan(0)
    expect(() => roomFlow({ ...STILL, openings: [] })).toThrow('air/room-flow-range')
  })
})
