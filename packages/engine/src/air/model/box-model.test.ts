import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { boxBody } from '../../box/index.ts'
import { type Job, readJob, SIDES, type Side } from '../../job/index.ts'
import { readPrices } from '../../parts/index.ts'
import { plan } from '../../plan/index.ts'
import { builtInOverlays, rulesFor } from '../../rules/index.ts'
import { dischargeInSeriesRatio, screenLossRatio } from '../flow/holes.ts'
import { numberIn, rowOf } from '../shelf.ts'
import type { BoxModel } from '../year/types.ts'
import { bareShareFrac, insideAreaM2 } from './bare.ts'
import { boxModelOf, type ModelMade } from './box-model.ts'
import { MODEL_ENDS, type ModelEnd } from './ends.ts'
import { gearHeatOf, type HeatTask } from './gear-heat.ts'
import { monthShares } from './months.ts'
import { fanByPower, ventDischargeRatio } from './openings.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const prices = readPrices(text('shop/prices/invented-2026.yaml'))
if (!prices.ok) throw new Error('prices')
const shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }

function jobOf(document: string): Job {
  const read = readJob(document)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}
const EXAMPLE = text('examples/two-machines.yaml')
const plans = new Map<string, ReturnType<typeof plan>>()
function planned(document: string) {
  const found = plans.get(document) ?? plan(jobOf(document), shop)
  plans.set(document, found)
  return found
}

function made(document = EXAMPLE, end: ModelEnd = MODEL_ENDS.middle, change: Partial<Job> = {}): ModelMade {
  const job = { ...jobOf(document), ...change }
  const { design, assessment } = planned(document)
  const build = design.builds[0]!
  return boxModelOf({
    ...{ job, design, build, rules: rulesFor('us', {}), end },
    body: boxBody(job.boxes[0]!, null),
    reach: assessment.results.reach.boxes,
    weighed: assessment.results.haul.boxes[0]!.items,
  })
}
const pinned = (choice: string, value: string, more: readonly (readonly [string, string])[] = []) =>
  made(
    `${EXAMPLE}\nchoices:\n${[[choice, value] as const, ...more]
      .map(([c, v]) => `  air.yard.${c}: { value: "${v}", by: me, why: a test }\n`)
      .join('')}`,
  ).model
const face = (model: BoxModel, side: Side) => model.faces[SIDES.indexOf(side)]!
const plain = made().model

describe('a box of 20 ft as the year sees it', () => {
  test('areas and volume are those of the table of boxes', () => {
    const row = rowOf('box-areas', '20 ft')
    const near = (value: number, column: string) => expect(value / numberIn(row, column), column).toBeCloseTo(1, 2)
    near(face(plain, 'roof').areaM2, 'roof_or_floor')
    near(face(plain, 'left').areaM2, 'one_side')
    near(face(plain, 'blind end').areaM2, 'one_end')
    near(plain.volumeM3, 'volume')
    near(
      [...plain.faces, ...(plain.parts ?? [])].reduce((sum, f) => sum + f.areaM2, 0),
      'six_faces',
    )
    near(face(plain, 'left').areaM2 * face(plain, 'left').developedRatio * 2, 'both_sides_developed')
  })

  test('its steel keeps 5.8 and 7.2 kJ/m²K, and its floor is 28 mm of wood', () => {
    // Notes of table box-areas: 1.6 mm wall and 2 mm roof.
    expect(face(plain, 'left').layers[0]!.heatJPerM2K / 1000).toBeCloseTo(5.8, 1)
    expect(face(plain, 'roof').layers[0]!.heatJPerM2K / 1000).toBeCloseTo(7.2, 1)
    expect(plain.floor.thicknessM).toBeCloseTo(0.028, 6)
    expect(plain.floor.dryKgPerM2).toBeCloseTo(19.6, 6)
    expect(face(plain, 'floor').layers[0]!.resistanceM2KPerW).toBeCloseTo(0.028 / 0.17, 9)
  })

  test('the crossmembers of a 20 ft box pass 12 W/K', () => {
    const [part] = plain.parts!
    expect(part!.areaM2 / part!.layers[1]!.resistanceM2KPerW).toBeCloseTo(12, 1)
    expect(face(plain, 'floor').areaM2 + part!.areaM2).toBeCloseTo(plain.floorAreaM2, 9)
  })

  test('faces stand in the order of the sides, roof to the sky and floor to the air', () => {
    expect(plain.faces.map((f) => f.side)).toEqual(SIDES)
    expect(plain.faces.map((f) => f.sees)).toEqual(['sky', 'sky', 'sky', 'sky', 'sky', 'air'])
    expect(plain.faces.map((f) => f.bareFrac)).toEqual([0, 0, 0, 0, 0, 0])
  })

  test('rails and posts of a wall are what the drawing of the frame leaves of them inside', () => {
    const body = boxBody(jobOf(EXAMPLE).boxes[0]!, null)
    // Side wall: rail 52.5 mm high between the posts, bottom rail 10 mm over the floor; posts to the face of their fittings.
    const [x, , z] = body.insideAtMm
    const top = z + body.insideMm[2]
    const railsMm2 = (5880 - 178) * (top - 2503 + (172.5 - z))
    const postsMm2 = (178 - x + (x + body.insideMm[0] - 5880)) * (top - z)
    expect(bareShareFrac(body, 'left')).toBeCloseTo((railsMm2 + postsMm2) / 1e6 / insideAreaM2(body, 'left'), 3)
    expect(bareShareFrac(body, 'right')).toBeCloseTo(bareShareFrac(body, 'left'), 9)
    for (const side of ['roof', 'blind end', 'door end'] as const) {
      expect(bareShareFrac(body, side), side).toBeGreaterThan(0.01)
      expect(bareShareFrac(body, side), side).toBeLessThan(0.2)
    }
  })

  test('a vent low on the right, and a fan that its hood and mesh hold back', () => {
    expect(plain.openings.map((o) => [o.id, o.side, o.areaM2, o.winterFrac])).toEqual([['vent low', 'right', 0.09, 1]])
    expect(plain.openings[0]!.heightM).toBeCloseTo(0.45, 6)
    // Table discharge: hooded vent with mesh, on its face area.
    expect(plain.openings[0]!.dischargeRatio).toBeCloseTo(0.25, 9)
    const { freeFlowM3s, shutPa } = fanByPower(60)
    expect([freeFlowM3s, shutPa]).toEqual([0.4, 80])
    expect(plain.fan).toMatchObject({ blows: 'out', shutPressurePa: 80, powerW: 60, drierKgPerKg: null, solar: null })
    // Behind its hood it moves what makes the fan's pressure and the hood's loss equal: 1.2/2·(Q/CdA)² = 80·(1 − (Q/0.4)²).
    const q = plain.fan!.freeFlowM3S
    expect(0.6 * (q / (0.25 * 0.09)) ** 2).toBeCloseTo(80 * (1 - (q / 0.4) ** 2), 6)
  })

  test('gear is what hangs inside, with the strut that it hangs on', () => {
    const { design, assessment } = planned(EXAMPLE)
    const items = design.builds[0]!.fit.items.filter((i) => i.face === 'inside')
    const hungKg = items.reduce((sum, i) => sum + (i.massKg.low + i.massKg.high) / 2, 0)
    expect(assessment.results.haul.boxes[0]!.items.some((i) => design.builds[0]!.fit.strut.some((s) => s.id === i.id))).toBe(true)
    expect(plain.gear.heatJPerK / 480).toBeGreaterThan(0.5 * hungKg)
    expect(plain.gear.heatJPerK / 480).toBeLessThan(hungKg + 200)
    // 30 W/K for 300 kg, by the surface.
    expect(plain.gear.toAirWPerK / 30).toBeCloseTo((plain.gear.heatJPerK / 480 / 300) ** (2 / 3), 6)
    expect(plain.below.map((b) => b.id)).toContain('panel')
    expect(plain.below.map((b) => b.id)).not.toContain('light 1')
  })
})

describe('what changes a model', () => {
  test('foam lies on the sheet between rails that stay bare, unless they are foamed too', () => {
    const roof = face(pinned('roof-foam', '50 mm'), 'roof')
    expect(roof.layers.map((l) => [l.what.split(',')[0], l.nodesCount])).toEqual([
      ['weathering steel sheet', 1],
      ['polyurethane spray foam', 3],
    ])
    expect(roof.layers[1]!.resistanceM2KPerW).toBeCloseTo(0.05 / 0.028, 9)
    const body = boxBody(jobOf(EXAMPLE).boxes[0]!, null)
    expect(roof.bareFrac).toBeCloseTo(bareShareFrac(body, 'roof'), 9)
    expect(face(pinned('roof-foam', '50 mm', [['bridges-foamed', 'yes']]), 'roof').bareFrac).toBe(0)
    expect(face(pinned('roof-foam', '50 mm'), 'left').layers).toHaveLength(1)
  })

  test('a door in a foamed wall is steel without foam', () => {
    const foamed = pinned('wall-foam', '25 mm', [['bridges-foamed', 'yes']])
    expect(face(foamed, 'right').bareFrac).toBeCloseTo((0.9 * 2) / face(foamed, 'right').areaM2, 2)
    expect(face(foamed, 'left').bareFrac).toBe(0)
    expect(face(foamed, 'roof').layers).toHaveLength(1)
  })

  test.each<[string, string, (m: BoxModel) => unknown]>([
    ['roof-paint', 'black', (m) => face(m, 'roof').absorptanceFrac],
    ['wall-paint', 'black', (m) => face(m, 'left').absorptanceFrac],
    ['wall-foam', '50 mm', (m) => face(m, 'left').layers.length],
    ['second-roof', 'yes', (m) => face(m, 'roof').shade],
    ['vents', '500 x 400 mm', (m) => m.openings[0]!.areaM2],
    ['vents', 'no', (m) => m.openings.length],
    ['vent-places', 'low right 900 mm', (m) => m.openings[0]!.heightM],
    ['vent-places', 'low left', (m) => m.openings[0]!.side],
    ['vent-places', 'high 1500 mm', (m) => m.fan?.heightM],
    ['winter-open', '20 %', (m) => m.openings[0]!.winterFrac],
    ['fan', '100 W above 25 C by humidity', (m) => m.fan],
    ['fan', '12 W solar', (m) => m.fan?.solar],
    ['fan', 'no', (m) => m.openings.map((o) => o.id)],
    ['heater', '150 W cabinet', (m) => m.heater],
    ['humidistat', 'yes', (m) => m.heater?.dewMarginK],
    ['drip-hood', 'yes', (m) => m.below.every((b) => b.hooded)],
    ['floor-painted', 'yes', (m) => m.floor.paintedRatio],
  ])('a pin on %s, “%s”, reaches it', (choice, value, of) => {
    expect(of(pinned(choice, value))).not.toEqual(of(plain))
  })

  test('a vent that is pinned where no opening can be cut is said, not passed over; one that can is not', () => {
    const notes = (value: string) =>
      made(`${EXAMPLE}\nchoices:\n  air.yard.vent-places: { value: "${value}", by: me, why: a test }\n`).notes.filter(
        (n) => n.path === 'air.yard.vent-places',
      )
    expect(notes('low right 900 mm')).toEqual([])
    expect(notes('low right 2600 mm').map((n) => [n.kind, n.said])).toEqual([
      ['unread', expect.stringContaining('the vent low is wanted in the right long side, its middle 2600 mm over the floor')],
    ])
  })

  test('ends: leakage 2, 5 and 15 times an hour at 50 Pa; a clogged mesh passes less; an aged white takes more sun', () => {
    const at = (end: Partial<ModelEnd>, document = EXAMPLE) => made(document, { ...MODEL_ENDS.middle, ...end }).model
    // n50 = 3600·C·50^0.65/V.
    const n50 = (m: BoxModel) => (3600 * m.leakM3SAt1Pa * 50 ** m.leakExponent) / m.volumeM3
    expect([at({ leak: 'tight' }), at({}), at({ leak: 'leaky' })].map((m) => Math.round(n50(m) * 1e6) / 1e6)).toEqual([2, 5, 15])
    expect(at({ vents: 'half clogged' }).openings[0]!.dischargeRatio).toBeLessThan(0.23)
    const white = `${EXAMPLE}\nchoices:\n  air.yard.roof-paint: { value: white, by: me, why: a test }\n`
    expect(face(at({}, white), 'roof').absorptanceFrac).toBe(0.25)
    expect(face(at({ paint: 'aged' }, white), 'roof').absorptanceFrac).toBe(0.45)
    const sum = (a: Float64Array) => a.reduce((s, v) => s + v, 0)
    expect(sum(at({ load: 'working day' }).gearHeatW)).toBeGreaterThan(sum(at({ load: 'mean day' }).gearHeatW))
    expect(sum(at({ boots: 'wet' }).waterKgS)).toBeGreaterThan(sum(at({ boots: 'dry' }).waterKgS))
  })

  test('a box that stands is taken with what was told of it', () => {
    const body = { paint: 'white', insulation: '50 mm foam, roof', heater: 'none', vents: 'one low and one high, 100 cm2 each' }
    const { model, air, notes } = made(EXAMPLE, MODEL_ENDS.middle, { builtBody: body as never })
    expect(face(model, 'roof').layers).toHaveLength(2)
    expect([model.heater, air.heater]).toEqual([null, null])
    expect(model.openings.map((o) => [o.id, o.areaM2])).toEqual([
      ['vent low 1', 0.01],
      ['vent high 1', 0.01],
    ])
    expect(model.openings[1]!.heightM).toBeGreaterThan(2)
    expect(notes.some((n) => n.path.startsWith('facts.built'))).toBe(false)
  })

  test('of vents that are told low and high ones face each other, in whatever order they are told', () => {
    const sides = (vents: string) =>
      made(EXAMPLE, MODEL_ENDS.middle, { builtBody: { vents } as never }).model.openings.map((o) => `${o.id} ${o.side}`)
    const pair = ['vent high 1 left', 'vent low 1 right']
    expect(sides('one low and one high, 100 cm2 each').toSorted()).toEqual(pair)
    expect(sides('one high and one low, 100 cm2 each').toSorted()).toEqual(pair)
    expect(sides('two low and two high, 100 cm2 each').toSorted()).toEqual([
      ...['vent high 1 left', 'vent high 2 right', 'vent low 1 right', 'vent low 2 left'],
    ])
    expect(sides('three low and three high, 100 cm2 each').filter((s) => s.endsWith('left'))).toHaveLength(3)
  })

  test('how it is turned is told, or assumed and said', () => {
    const turned = made(EXAMPLE.replace('heated: 0 C', 'heated: 0 C, door-faces: 135 deg'))
    expect(turned.model.doorFacesDeg).toBe(135)
    expect(turned.notes.map((n) => n.path)).not.toContain('boxes[0].door-faces')
    expect(made().notes.map((n) => n.path)).toContain('boxes[0].door-faces')
  })

  describe('a light coat of which nobody knows how it ages', () => {
    const painted = (words: string) => EXAMPLE.replace('heated: 0 C', `heated: 0 C, paint: "${words}"`)
    const ageing = (document: string, end = MODEL_ENDS.hot, change: Partial<Job> = {}) =>
      made(document, end, change).notes.filter((n) => n.said.includes('ages'))
    const pins = (...of: readonly (readonly [string, string])[]) =>
      `${EXAMPLE}\nchoices:\n${of.map(([c, v]) => `  air.yard.${c}: { value: "${v}", by: me, why: a test }\n`).join('')}`

    test('is said once, at every end, where the coat is told', () => {
      for (const end of Object.values(MODEL_ENDS)) {
        const notes = ageing(painted('light grey'), end)
        expect(notes.map((n) => [n.kind, n.path, n.source])).toEqual([['assumed', 'boxes[0].paint', 'common practice']])
        expect(notes[0]!.said).toMatch(/“light grey, beige” ages.*as new at both ends.*may get hotter/)
      }
    })

    test('is named by its pin where it is pinned, and by the box that stands where one does', () => {
      expect(ageing(pins(['roof-paint', 'aluminium paint'])).map((n) => n.path)).toEqual(['air.yard.roof-paint'])
      const both = ageing(pins(['wall-paint', 'light grey'], ['roof-paint', 'Al-Zn coated sheet, new']))
      expect(both.map((n) => n.path)).toEqual(['air.yard.roof-paint'])
      expect(both[0]!.said).toContain('“Al-Zn coated sheet, new” and “light grey, beige”')
      const stands = ageing(painted('light grey'), MODEL_ENDS.hot, { builtBody: { paint: 'light grey' } as never })
      expect(stands.map((n) => n.path)).toEqual(['facts.built.paint'])
    })

    test('a roof that was measured is not taken from its coat, walls still are', () => {
      const { surveys } = jobOf(
        EXAMPLE.replace(
          'facts:',
          'facts:\n  surveys:\n    - { box: yard, roof-absorptance: { found: 55 %, low: 50 %, high: 60 %, by: a list, on: 2026-07-02 } }',
        ),
      )
      const roof = EXAMPLE.replace('heated: 0 C', 'heated: 0 C, paint: "black, light grey roof"')
      expect(ageing(roof)).toHaveLength(1)
      expect(ageing(roof, MODEL_ENDS.hot, { surveys })).toEqual([])
      expect(ageing(painted('light grey'), MODEL_ENDS.hot, { surveys })).toHaveLength(1)
    })

    test.each(['white', 'white, roof reflecting', 'white paint, soiled 3 years', 'same, 3 years'])(
      'nothing is said of “%s”: its ageing is in the table',
      (words) => expect(ageing(painted(words))).toEqual([]),
    )

    test.each(['green', 'black', 'galvanised'])('nothing is said of “%s”: dirt makes it little hotter', (words) =>
      expect(ageing(painted(words))).toEqual([]),
    )
  })
})

describe('parts of a model by hand', () => {
  test('a mesh of 6 mm and 1 mm wire is 73 % open; dirt takes half of that, and the rest lies in series with the hood', () => {
    const open = (6 / 7) ** 2
    const dirty = 2 * (screenLossRatio(open / 2) - screenLossRatio(open))
    const end: ModelEnd = { ...MODEL_ENDS.middle, vents: 'half clogged' }
    expect(ventDischargeRatio({ hood: true, meshMm: 6 }, end)).toBeCloseTo(dischargeInSeriesRatio(0.25, dirty), 12)
    expect(ventDischargeRatio({ hood: false, meshMm: null }, end)).toBe(0.6)
    expect(ventDischargeRatio({ hood: false, meshMm: 6 }, end)).toBeLessThan(0.6)
    expect(ventDischargeRatio({ hood: true, meshMm: null }, end)).toBeCloseTo(0.25, 9)
  })

  test('days of a machine against cold fall on the coldest months and add up; others are spread', () => {
    const means = [-10, -12, -5, 0, 5, 10, 15, 14, 9, 3, -4, -9]
    const days = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    const cold = monthShares(80, true, means)
    expect(cold.reduce((sum, s, m) => sum + s * days[m]!, 0)).toBeCloseTo(80, 9)
    expect([cold[1], cold[0], cold[11], cold[6]]).toEqual([1, 1, expect.closeTo((80 - 59.25) / 31, 9), 0])
    expect(monthShares(73.05, false, means).every((s) => Math.abs(s - 0.2) < 1e-9)).toBe(true)
    expect(monthShares(73.05, true, null)).toEqual(monthShares(73.05, false, null))
  })

  test('one circuit: a 20 A breaker and ten metres of 12 AWG at 16 A, by its hour, its duty and its months', () => {
    const circuit = {
      id: 'C1',
      own: null,
      device: { ratingA: 20, poles: 1 },
      run: { lengthM: 10, line: { size: '12 AWG', metal: 'cu' }, sets: 1 },
      connection: 'LN',
    }
    const state = { hoursH: [5], plugs: [{ plug: 'P', circuit: 'C1', currentA: 16 }], legA: { A: 16 }, sourceW: 1900 }
    const task = {
      designs: [
        { box: 'yard', phase: 'stay', circuits: [circuit], panel: { main: { ratingA: 100, poles: 2 } }, transformer: null },
      ],
      fit: { items: [] },
      plugs: [{ tag: 'P', dutyFrac: 0.5, daysPerYear: 365.25, use: 'general', kind: 'heater' }],
      reach: [{ box: 'yard', phase: 'stay', states: [state] }],
      rules: { sizes: [{ name: '12 AWG', areaMm2: 3.31 }] },
      meanCByMonth: null,
      end: MODEL_ENDS.hot,
    } as unknown as HeatTask
    const { gearW, airW } = gearHeatOf(task)
    // IEC 60898-1: 4.5 W a pole up to 25 A, 15 W up to 100 A; by the square of the current.
    expect(gearW[5]).toBeCloseTo(0.5 * (4.5 * (16 / 20) ** 2 + 2 * 15 * (16 / 100) ** 2), 9)
    expect(airW[5]).toBeCloseTo(0.5 * 2 * 16 * 16 * ((0.0203 * 10) / 3.31), 9)
    expect(gearW[4]).toBe(0)
    expect(gearW[11 * 24 + 5]).toBe(gearW[5])
  })

  test('the loss of a transformer goes into the air of the room, not into the gear that a heater warms', () => {
    const transformer = { noLoadLossW: 260, fullLoadLossW: 1500, kVA: 75 }
    const state = { hoursH: [5], plugs: [{ plug: 'P', circuit: 'C1', currentA: 16 }], legA: { A: 16 }, sourceW: 37_500 }
    const heat = (face: 'inside' | 'outside', losses: object = {}) =>
      gearHeatOf({
        designs: [
          {
            ...{ box: 'yard', phase: 'stay', circuits: [], panel: { main: { ratingA: 100, poles: 2 } } },
            transformer: { ...transformer, ...losses },
          },
        ],
        fit: { items: [{ kind: 'transformer', face }] },
        plugs: [],
        reach: [{ box: 'yard', phase: 'stay', states: [state] }],
        rules: { sizes: [] },
        meanCByMonth: null,
        end: MODEL_ENDS.hot,
      } as unknown as HeatTask)
    expect([heat('inside').airW[4], heat('outside').airW[4]]).toEqual([260, 0])
    expect(heat('inside').gearW).toEqual(heat('outside').gearW)
    // Half the load, a quarter of the load loss.
    expect(heat('inside').airW[5]! - 260).toBeLessThanOrEqual((1500 - 260) / 4)
    expect([heat('inside').lossUntold, heat('inside', { fullLoadLossW: null }).lossUntold]).toEqual([false, true])
    expect(heat('outside', { noLoadLossW: null }).lossUntold).toBe(false)
  })

  test('two phases with other loads: each month has its own; a month of both the hotter for heat, the colder for damp', () => {
    const circuit = {
      ...{ id: 'C1', own: null, device: { ratingA: 20, poles: 1 }, connection: 'LN' },
      run: { lengthM: 10, line: { size: '12 AWG', metal: 'cu' }, sets: 1 },
    }
    const design = (phase: string) => ({
      ...{ box: 'yard', phase, circuits: [circuit], panel: { main: { ratingA: 100, poles: 2 } }, transformer: null },
    })
    const reach = (phase: string, currentA: number) => ({
      ...{ box: 'yard', phase },
      states: [{ hoursH: [5], plugs: [{ plug: 'P', circuit: 'C1', currentA }], legA: { A: currentA }, sourceW: 1000 }],
    })
    // 'a' runs January to June at 16 A, 'b' June to December at 8 A.
    const phasesByMonth = Array.from({ length: 12 }, (_, m) => (m < 5 ? ['a'] : m === 5 ? ['a', 'b'] : ['b']))
    const heat = (end: ModelEnd, phases: HeatTask['phasesByMonth'], order: readonly ('a' | 'b')[] = ['a', 'b']) =>
      gearHeatOf({
        designs: order.map(design),
        fit: { items: [] },
        plugs: [{ tag: 'P', dutyFrac: 1, daysPerYear: 365.25, use: 'general', kind: 'heater' }],
        reach: [reach('a', 16), reach('b', 8)],
        rules: { sizes: [{ name: '12 AWG', areaMm2: 3.31 }] },
        ...{ meanCByMonth: null, phasesByMonth: phases, end },
      } as unknown as HeatTask).gearW
    const at = (watts: Float64Array) => [0, 5, 11].map((month) => watts[month * 24 + 5]!)
    // By the square of the current: half the amperes, a quarter of the watts. IEC 60898-1 limits: 4.5 W, 15 W a pole.
    const full = 4.5 * (16 / 20) ** 2 + 2 * 15 * (16 / 100) ** 2
    const near = (values: readonly number[]) => values.map((v) => expect.closeTo(v, 9))
    for (const order of [['a', 'b'] as const, ['b', 'a'] as const]) {
      expect(at(heat(MODEL_ENDS.hot, phasesByMonth, order))).toEqual(near([full, full, full / 4]))
      expect(at(heat(MODEL_ENDS.cold, phasesByMonth, order))).toEqual(near([full, full / 4, full / 4]))
      expect(at(heat(MODEL_ENDS.hot, null, order))).toEqual(near([full, full, full]))
      expect(at(heat(MODEL_ENDS.damp, null, order))).toEqual(near([full / 4, full / 4, full / 4]))
    }
  })
})
