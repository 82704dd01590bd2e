import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { berdahlMartinFrac, clarkAllenFrac, PHYSICS, skyC } from '../../weather/index.ts'
import {
  airLayerM2KPerW,
  bridgedUWPerM2K,
  COAT_UNTOLD,
  codeFilmM2KPerW,
  layeredUWPerM2K,
  material,
  naturalFilmWPerM2K,
  OUTSIDE_COATS,
  opticsOf,
  platesFrac,
  STEFAN_W_PER_M2K4,
  shadeC,
  steadySheetC,
  windFilmWPerM2K,
} from './index.ts'

const kelvin = (c: number) => c + 273.15

describe('a sheet that stands still', () => {
  test('its books close, from frost to a black roof', () => {
    fc.assert(
      fc.property(
        fc.record({
          absorbedWPerM2: fc.double({ min: 0, max: 1100, noNaN: true }),
          emittanceFrac: fc.double({ min: 0, max: 1, noNaN: true }),
          skyC: fc.double({ min: -60, max: 30, noNaN: true }),
          filmWPerM2K: fc.double({ min: 1, max: 50, noNaN: true }),
          airC: fc.double({ min: -50, max: 50, noNaN: true }),
          insideWPerM2K: fc.double({ min: 0, max: 20, noNaN: true }),
          insideC: fc.double({ min: -50, max: 60, noNaN: true }),
        }),
        (of) => {
          const t = steadySheetC(of)
          const out =
            of.filmWPerM2K * (t - of.airC) +
            of.insideWPerM2K * (t - of.insideC) +
            of.emittanceFrac * STEFAN_W_PER_M2K4 * (kelvin(t) ** 4 - kelvin(of.skyC) ** 4)
          expect(Math.abs(out - of.absorbedWPerM2)).toBeLessThan(1e-7)
        },
      ),
      { seed: 7 },
    )
    expect(() =>
      steadySheetC({ absorbedWPerM2: 0, emittanceFrac: 1, skyC: 0, filmWPerM2K: 0, airC: 0, insideWPerM2K: 0, insideC: 0 }),
    ).toThrow('air/sheet-range')
  })

  test('a lighter roof is never hotter', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (a, b) => {
        const at = (share: number) =>
          steadySheetC({
            absorbedWPerM2: share * 950,
            emittanceFrac: 0.9,
            skyC: 10,
            filmWPerM2K: 8,
            airC: 30,
            insideWPerM2K: 3,
            insideC: 40,
          })
        expect((at(a) - at(b)) * (a - b)).toBeGreaterThanOrEqual(0)
      }),
      { seed: 8 },
    )
  })

  test('clear nights with wind over 1 m/s: no more than 10 K below the air under either sky (case roof-12)', () => {
    const skies = [clarkAllenFrac, (dewC: number) => berdahlMartinFrac({ dewC, midnightH: 0, pressurePa: 101_325 })]
    for (const emissivity of skies)
      for (const [airC, dewC] of [
        [25, 18],
        [8, 5],
        [-10, -12],
      ] as const) {
        const sky = skyC(emissivity(dewC) * PHYSICS.stefanBoltzmannWPerM2K4 * kelvin(airC) ** 4)
        const film = windFilmWPerM2K(1.1, 17, 14.8, 1.11, 1) + naturalFilmWPerM2K(-5, 1)
        const roof = steadySheetC({
          absorbedWPerM2: 0,
          emittanceFrac: 0.9,
          skyC: sky,
          filmWPerM2K: film,
          airC,
          insideWPerM2K: naturalFilmWPerM2K(-5, -1),
          insideC: airC,
        })
        expect(airC - roof).toBeLessThan(10)
        expect(airC - roof).toBeGreaterThan(2)
      }
  })
})

describe('a second roof', () => {
  const noon = (roofC: number, absorbed = 700) => shadeC(absorbed, 0.9, 15, 32, 8, 5, roofC, platesFrac(0.9, 0.9))

  test('its books close', () => {
    const t = kelvin(noon(40))
    const plates = platesFrac(0.9, 0.9)
    const out =
      13 * (t - kelvin(32)) +
      0.9 * STEFAN_W_PER_M2K4 * (t ** 4 - kelvin(15) ** 4) +
      plates * STEFAN_W_PER_M2K4 * (t ** 4 - kelvin(40) ** 4)
    expect(out).toBeCloseTo(700, 8)
  })

  test('the roof under it stays far cooler than one in the sun', () => {
    const bare = steadySheetC({
      absorbedWPerM2: 700,
      emittanceFrac: 0.9,
      skyC: 15,
      filmWPerM2K: 8,
      airC: 32,
      insideWPerM2K: 0,
      insideC: 32,
    })
    let roof = 40
    for (let n = 0; n < 50; n++)
      roof = steadySheetC({
        absorbedWPerM2: 0,
        emittanceFrac: platesFrac(0.9, 0.9),
        skyC: noon(roof),
        filmWPerM2K: 5,
        airC: 32,
        insideWPerM2K: 0,
        insideC: 32,
      })
    expect(bare).toBeGreaterThan(70)
    expect(roof).toBeLessThan(noon(roof))
    expect(roof).toBeLessThan(50)
  })

  test('with nothing to drive it, it stands at the one temperature of all', () => {
    expect(shadeC(0, 0.9, 12, 12, 4, 3, 12, 0.8)).toBeCloseTo(12, 10)
    expect(() => shadeC(0, 0, 12, 12, 4, 3, 12, 0.8)).toThrow('air/shade-range')
  })
})

describe('layers and coats', () => {
  test('foamed steel, films of ISO 6946', () => {
    const [rsi, rse] = [
      codeFilmM2KPerW('ISO 6946', 'inside', 'horizontal'),
      codeFilmM2KPerW('ISO 6946', 'outside', 'any (4 m/s)'),
    ]
    expect(layeredUWPerM2K(rsi, [0.0016 / 50, 0.05 / 0.025], rse)).toBeCloseTo(0.461, 3)
    expect(() => layeredUWPerM2K(0, [], 0)).toThrow('air/layer-range')
    expect(() => bridgedUWPerM2K([{ areaFrac: 0.5, uWPerM2K: 1 }])).toThrow('air/bridge-range')
  })

  test('air layers straight between the printed thicknesses (ISO 6946 table 2)', () => {
    expect(airLayerM2KPerW(0.01, 'up')).toBe(0.15)
    expect(airLayerM2KPerW(0.02, 'down')).toBeCloseTo(0.18, 12)
    expect(() => airLayerM2KPerW(0.4, 'up')).toThrow('air/layer-range')
  })

  test('a white coat soils over three years and stays; a brown one is as it is, and says that nothing is known', () => {
    const white = 'white TiO2 coating, clean'
    expect(opticsOf(white, 0).absorptanceFrac).toBe(0.19)
    expect(opticsOf(white, 1.5).absorptanceFrac).toBeCloseTo(0.32, 12)
    expect(opticsOf(white, 9).absorptanceFrac).toBeCloseTo(0.45, 12)
    expect(opticsOf(COAT_UNTOLD, 5)).toMatchObject({ absorptanceFrac: 0.75, emittanceFrac: 0.9, ageUnknown: true })
    expect(() => opticsOf('mauve', 0)).toThrow('air/no-row')
    expect(() => opticsOf(white, -1)).toThrow('air/age-range')
    for (const coat of OUTSIDE_COATS) expect(opticsOf(coat, 2).absorptanceFrac).toBeGreaterThan(0)
    expect(material('mineral wool').conductsWPerMK).toBe(0.037)
  })
})
