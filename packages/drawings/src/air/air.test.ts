import { describe, expect, test } from 'vitest'
import { AIR_DESIGN, AIR_SIZE, airBox, type Climate, COLD, HOT, hoursIn, spellFrom } from '../../test/air-year.ts'
import { areaOf } from '../model/lettering.ts'
import type { Item, Line, Scene, Text } from '../scene.ts'
import { timeAt } from './clock.ts'
import { airFaces } from './faces.ts'
import { airReasons } from './reasons.ts'
import { airRemedies, REMEDY_QUANTITIES, type RemedyAmounts } from './remedies.ts'
import { airSection, neutralLevelM } from './section.ts'
import { degreesSaid, fixed, flowSaid, kelvinSaid, reasonSaid, waterSaid } from './units.ts'
import { airWeek } from './week.ts'
import { airYearMap, mapHourAt, type YearMap } from './year-map.ts'
import { hotFromC, yearMapOf } from './year-map-of.ts'

const isLine = (item: Item): item is Line => item.kind === 'line'
const texts = (scene: Scene): readonly string[] => scene.items.flatMap((i) => (i.kind === 'text' ? [i.text] : []))
const words = (scene: Scene): string => texts(scene).join('|')

/** Ten days from the 30th of December, 05:00, of which hours are marked. */
const map = (over: Partial<YearMap> = {}): YearMap => ({
  ...{ widthMm: 185, hoursCount: 240, firstDay: 364, firstHour: 5, ramp: null, frostH: [], dripH: [], hotH: [] },
  ...{ words: { frost: 'frost', drip: 'drip', hot: 'hot' }, weeks: [], chosen: null },
  ...over,
})

describe('the map of a year', () => {
  test('one cell an hour: the marks of an hour stand where a touch finds that hour', () => {
    const of = map({ frostH: [0, 19, 100, 239] })
    const scene = airYearMap(of)
    const dots = scene.items.find((i): i is Line => isLine(i) && i.hatch === 'solid')!
    const middles = [dots.pointsMm, ...dots.moreMm!].map((p): [number, number] => [p[1]![0], p[0]![1]])
    expect(middles.map((at) => mapHourAt(scene.plot, of, at))).toEqual([0, 19, 100, 239])
  })

  test('beside the hours that were run there is no hour', () => {
    const of = map()
    const { plot } = airYearMap(of)
    const at = (day: number, hour: number): [number, number] => [
      plot.leftMm + (day + 0.5) * plot.dayMm,
      plot.topMm + (23.5 - hour) * plot.hourMm,
    ]
    expect(mapHourAt(plot, of, at(0, 5))).toBe(0)
    expect(mapHourAt(plot, of, at(0, 4))).toBeNull()
    expect(mapHourAt(plot, of, at(10, 4))).toBe(239)
    expect(mapHourAt(plot, of, at(10, 5))).toBeNull()
    expect(mapHourAt(plot, of, [0, 0])).toBeNull()
  })

  test('every hour inks its own cell in the step it belongs to: areas of the steps add up to their hours', () => {
    const values = Array.from({ length: 240 }, (_, h) => (h * 37) % 60)
    const scene = airYearMap(map({ ramp: { name: 'q', unit: '', values, edges: [10, 20, 30, 40, 50] } }))
    const cellMm2 = scene.plot.dayMm * scene.plot.hourMm
    for (let step = 1; step <= 5; step += 1) {
      const item = scene.items.find((i): i is Line => isLine(i) && i.hatch === `ink ${step}` && i.line === 'none')!
      const areas = [item.pointsMm, ...(item.moreMm ?? [])].map((p) => (p[1]![0] - p[0]![0]) * (p[2]![1] - p[1]![1]))
      const hours = values.filter((v) => v >= step * 10 && v < step * 10 + 10).length
      expect(areas.reduce((s, a) => s + a, 0) / cellMm2).toBeCloseTo(hours, 6)
    }
  })

  test('on paper there are the three marks and no ramp', () => {
    const scene = airYearMap(yearMapOf(airBox(COLD), { widthMm: 185, units: 'metric', end: 'tight', quantity: null, spell: 0 }))
    expect(scene.items.filter((i) => isLine(i) && i.hatch?.startsWith('ink'))).toEqual([])
    expect(words(scene)).toMatch(/frost under the roof: \d/)
  })

  test('frost is what hangs under a roof below freezing; without any, nothing is marked and the count says 0', () => {
    const cold = airBox(COLD)
    const { map: m } = cold.ends.tight
    const of = yearMapOf(cold, { widthMm: 185, units: 'metric', end: 'tight', quantity: null, spell: null })
    expect(of.frostH.length).toBeGreaterThan(100)
    for (const h of of.frostH) expect(m.roofC[h]! < 0 && m.roofGPerM2[h]! >= 1).toBe(true)
    const hot = yearMapOf(airBox(HOT), { widthMm: 185, units: 'metric', end: 'tight', quantity: null, spell: null })
    expect(hot.frostH).toEqual([])
    expect(hot.words.frost).toContain('0 h')
    expect(hot.hotH.length).toBeGreaterThan(10)
  })

  test('the lowest limit of the gear decides what is too hot; none known, none marked', () => {
    expect(hotFromC(airBox(COLD).ends.tight.gear)).toBe(40)
    expect(hotFromC([])).toBeNull()
  })

  test('names of stretches never stand on each other', () => {
    const of = yearMapOf(airBox(COLD), { widthMm: 104, units: 'metric', end: 'tight', quantity: null, spell: 0 })
    const near = { ...of, weeks: of.weeks.map((w, i) => ({ ...w, fromH: 1000 + 200 * i })) }
    const names = airYearMap(near).items.filter((i): i is Text => i.kind === 'text' && i.text.startsWith('week'))
    expect(names).toHaveLength(2)
    expect(names[0]!.atMm[1]).not.toBe(names[1]!.atMm[1])
  })
})

describe('the calendar of a run', () => {
  test('runs over the end of a year and keeps a leap day only where it is told', () => {
    expect(timeAt({ firstDay: 365, firstHour: 23 }, 1)).toEqual({ month: 0, day: 1, hourH: 0 })
    expect(timeAt({ firstDay: 59, firstHour: 0 }, 24)).toEqual({ month: 2, day: 1, hourH: 0 })
    expect(timeAt({ firstDay: 59, firstHour: 0, leap: true }, 24)).toEqual({ month: 1, day: 29, hourH: 0 })
  })
})

const arcticHours = hoursIn({ meanC: -60, yearC: 3, dayC: 3, dampK: 4, hoursCount: 96 } satisfies Climate, 1.4)
const spell = airBox(COLD).ends.tight.spells[0]!

describe('some days large', () => {
  const week = (over: Partial<Parameters<typeof airWeek>[0]> = {}): Scene =>
    airWeek({ widthMm: 185, units: 'metric', spell, atH: null, hotC: 40, ...over })

  test('a curve a temperature: its highest reading stands at the height that the axis gives it', () => {
    const scene = week()
    const chalk = scene.items.filter((i): i is Line => isLine(i) && i.line === 'chalk')[0]!
    const ticks = scene.items.filter(
      (i): i is Text => i.kind === 'text' && i.anchor === 'end' && /^−?\d+(\u202f°C)?$/.test(i.text),
    )
    const number = (t: Text): number => Number(t.text.replace('−', '-').replace('\u202f°C', ''))
    const [low, high] = [ticks[0]!, ticks.find((t) => t.text.endsWith('°C'))!]
    const yOf = (c: number): number =>
      low.atMm[1] + ((c - number(low)) / (number(high) - number(low))) * (high.atMm[1] - low.atMm[1]) - 0.95
    expect(Math.min(...chalk.pointsMm.map((p) => p[1]))).toBeCloseTo(yOf(Math.max(...spell.outsideC)), 6)
  })

  test('where the underside of the roof is under the dew point it is hatched, elsewhere not', () => {
    const hatched = (scene: Scene): number => scene.items.filter((i) => isLine(i) && i.hatch === 'upright close').length
    expect(hatched(week())).toBeGreaterThan(0)
    const dry = { ...spell, dewPointC: spell.dewPointC.map(() => -80) }
    expect(hatched(week({ spell: dry }))).toBe(0)
  })

  test('a dry week says so; where water falls its sum stands beside the strokes', () => {
    const { roof } = spell.faces
    const still = {
      ...roof,
      filmGPerM2: roof.filmGPerM2.map(() => 0),
      frostGPerM2: roof.filmGPerM2.map(() => 0),
      fellG: roof.fellG.map(() => 0),
    }
    expect(words(week({ spell: { ...spell, faces: { ...spell.faces, roof: still } } }))).toContain('dry all these days')
    const falls = { ...roof, fellG: roof.fellG.map((_, h) => (h < 10 ? 300 : 0)) }
    expect(words(week({ spell: { ...spell, faces: { ...spell.faces, roof: falls } } }))).toContain('3.0\u202fl falls')
  })

  test('sixty below, one hour, no hour: each is drawn or says that there is nothing to draw', () => {
    expect(words(week({ spell: spellFrom('cold', arcticHours, 0, 96), hotC: 40 }))).not.toContain('limit')
    expect(week({ spell: spellFrom('cold', arcticHours, 0, 96) }).said).toContain('−6')
    expect(words(week({ spell: spellFrom('one', arcticHours, 3, 4), atH: 0 }))).toContain('(cut line)')
    expect(words(week({ spell: spellFrom('none', arcticHours, 3, 3) }))).toContain('no hours to draw')
  })

  test('what the weather does not know is said and not drawn', () => {
    expect(words(week({ spell: { ...spell, sunWPerM2: [], windMPerS: [] } }))).toContain('sun not known')
    const gap = { ...spell, outsideC: spell.outsideC.map((c, h) => (h > 40 && h < 60 ? Number.NaN : c)) }
    const chalk = week({ spell: gap }).items.filter((i) => isLine(i) && i.line === 'chalk')
    expect(chalk.length).toBe(week().items.filter((i) => isLine(i) && i.line === 'chalk').length + 1)
  })
})

describe('the six faces', () => {
  const faces = (over: Partial<Parameters<typeof airFaces>[0]> = {}): Scene =>
    airFaces({ widthMm: 185, units: 'metric', spell, atH: 0, sizeM: AIR_SIZE, vents: [], ...over })
  const withRoof = (filmG: number, frostG: number, fellG: number) => ({
    ...spell,
    faces: {
      ...spell.faces,
      roof: {
        ...spell.faces.roof,
        filmGPerM2: spell.faces.roof.filmGPerM2.map(() => filmG),
        frostGPerM2: spell.faces.roof.filmGPerM2.map(() => frostG),
        fellG: spell.faces.roof.filmGPerM2.map(() => fellG),
      },
    },
  })

  test('frost and water are told apart in g/m², and what falls is said', () => {
    const said = words(faces({ spell: withRoof(300, 120, 1500) }))
    expect(said).toContain('frost 120\u202fg/m²')
    expect(said).toContain('water 180\u202fg/m²')
    expect(said).toContain('1.5\u202fl falls')
  })

  test('each state has its hatch: dots for frost, slanted for water, closer where it is near to falling, blank where dry', () => {
    const roofHatch = (filmG: number, frostG: number): string | undefined => {
      const scene = faces({ spell: withRoof(filmG, frostG, 0) })
      const large = scene.items.filter((i): i is Line => isLine(i) && i.closed && i.line === 'none' && i.hatch !== undefined)
      return large.at(4)?.hatch
    }
    expect(roofHatch(100, 90)).toBe('dots')
    expect(roofHatch(100, 0)).toBe('slant wide')
    expect(roofHatch(300, 0)).toBe('slant close')
    expect(roofHatch(0, 0)).toBe('blank')
  })

  test('ten edges are cut and the five that the faces hang together by are folded', () => {
    for (const over of [{}, { widthMm: 104 }, { sizeM: { ...AIR_SIZE, lengthM: 12 } }])
      expect(faces(over).items.filter((i) => isLine(i) && i.line === 'fold')).toHaveLength(5)
  })

  test('an hour that is not there is not drawn', () => {
    for (const atH of [-1, spell.hoursCount, Number.NaN]) expect(words(faces({ atH }))).toBe('No hour is chosen.')
  })
})

describe('the section with its flows', () => {
  const section = (over: Partial<Parameters<typeof airSection>[0]> = {}): ReturnType<typeof airSection> =>
    airSection({ widthMm: 185, units: 'metric', spell, atH: 12, sizeM: AIR_SIZE, air: AIR_DESIGN, gearSide: 'left', ...over })

  test('air that comes in points into the box and air that leaves points out of it, the larger flow the thicker', () => {
    const arrows = (flows: readonly [number, number]): readonly Line[] =>
      section({
        spell: {
          ...spell,
          openings: ['vent low', 'vent high'].map((id, i) => ({ id, flowM3S: spell.airC.map(() => flows[i]!) })),
        },
      }).items.filter((i): i is Line => isLine(i) && i.closed && i.hatch === 'solid' && i.pointsMm.length === 7)
    const thick = (arrow: Line): number => Math.abs(arrow.pointsMm[0]![1] - arrow.pointsMm[6]![1])
    const [low, high] = arrows([0.02, -0.005]) as [Line, Line]
    // Low vent: right wall; in is to the left. High vent: left wall; out is to the left.
    expect(low.pointsMm[3]![0]).toBeLessThan(low.pointsMm[0]![0])
    expect(high.pointsMm[3]![0]).toBeLessThan(high.pointsMm[0]![0])
    expect(thick(low)).toBeGreaterThan(thick(high))
    const turned = arrows([-0.02, 0.005])[0]!
    expect(turned.pointsMm[3]![0]).toBeGreaterThan(turned.pointsMm[0]![0])
    expect(arrows([0, 0])).toEqual([])
  })

  test('flows stand in m³/h or cfm, and what the run does not keep is said', () => {
    const flows = { ...spell, openings: [{ id: 'vent low', flowM3S: spell.airC.map(() => 0.01) }] }
    expect(words(section({ spell: flows }))).toContain('in 36\u202fm³/h')
    expect(words(section({ spell: flows, units: 'us' }))).toContain('in 21\u202fcfm')
    expect(words(section({ spell: { ...spell, openings: [] } }))).toContain('does not keep')
    expect(words(section({ air: { ...AIR_DESIGN, vents: [] } }))).toContain('There is no vent.')
  })

  test('words along a wall keep clear of its vents', () => {
    const vent = { ...AIR_DESIGN.vents.find((v) => !v.fan)!, side: 'right' as const }
    for (const upMm of [300, 700, 900, 1100, 1500, 1900]) {
      const { items, places } = section({ air: { ...AIR_DESIGN, vents: [{ ...vent, upMm }] } })
      const { yMm, heightMm } = (places as readonly { readonly yMm: number; readonly heightMm: number }[])[0]!
      const along = items.flatMap((i) => (i.kind === 'text' && i.turnDeg === -90 ? [i] : []))
      expect(along).toHaveLength(4)
      // The last two are those of the right wall; half of "outside −12.3 °C" as set is 10 mm.
      for (const words of along.slice(2)) expect(Math.abs(words.atMm[1] - yMm) - heightMm / 2, `${upMm} mm`).toBeGreaterThan(8)
    }
  })

  /** Two equal openings: the level halves their distance; one of twice the area: pressures as 1 to 4, so it lies by it. @source stack flow, table case `vent-03` in words */
  test('the level at which inside and outside press alike lies nearer to the larger opening', () => {
    const vent = (upM: number, areaM2: number, flowM3S: number) => ({ upM, areaM2, flowM3S, fan: false })
    expect(neutralLevelM([vent(0.4, 0.1, 0.02), vent(2, 0.1, -0.02)])).toBeCloseTo(1.2, 9)
    expect(neutralLevelM([vent(0.4, 0.2, 0.02), vent(2, 0.1, -0.02)])).toBeCloseTo(0.4 + 1.6 / 5, 9)
    expect(neutralLevelM([vent(0.4, 0.1, 0.02), vent(2, 0.1, 0.02)])).toBeNull()
    expect(neutralLevelM([vent(0.4, 0.1, 0.02), { ...vent(2, 0.1, -0.02), fan: true }])).toBeNull()
  })

  test('hood, second roof and heater are drawn where the box has them', () => {
    const bare = { ...AIR_DESIGN, dripHood: false, secondRoof: false, heater: null }
    for (const word of ['hood', 'second roof', 'heater']) expect(words(section({ air: bare }))).not.toContain(word)
    const all = words(section({ air: { ...AIR_DESIGN, secondRoof: true } }))
    for (const word of ['hood', 'second roof', 'heater']) expect(all).toContain(word)
  })
})

describe('a chain of reasons', () => {
  const moment = airBox(COLD).ends.tight.worstNight!

  test('every reason has its plate with its figure, and each but the first is led to; on what water fell stands in one at the end', () => {
    const scene = airReasons({ widthMm: 185, units: 'metric', moment })
    const plates = scene.items.filter((i) => isLine(i) && i.closed && i.hatch === 'blank')
    const heads = scene.items.filter((i) => isLine(i) && i.hatch === 'solid')
    const reasons = moment.steps.filter((s) => !s.said.startsWith('of it on'))
    expect(reasons.length).toBe(moment.steps.length - 2)
    expect(plates).toHaveLength(reasons.length + 1)
    expect(heads).toHaveLength(reasons.length)
    for (const step of moment.steps) expect(words(scene)).toContain(reasonSaid(step.value, step.unit, 'metric'))
    expect(words(scene)).toContain('Of it on: the hood over panel 170\u202fg, controls 20\u202fg; the rest on the floor.')
  })

  test('words keep within their plate', () => {
    for (const widthMm of [185, 104]) {
      const scene = airReasons({ widthMm, units: 'us', moment })
      const plates = scene.items.filter((i): i is Line => isLine(i) && i.closed && i.hatch === 'blank')
      for (const item of scene.items.slice(1)) {
        if (item.kind !== 'text') continue
        const { left, right, top, bottom } = areaOf(item)
        const around = plates.some(
          (p) =>
            p.pointsMm[0]![0] <= left && p.pointsMm[1]![0] >= right && p.pointsMm[0]![1] <= top && p.pointsMm[2]![1] >= bottom,
        )
        expect(around, item.text).toBe(true)
      }
    }
  })

  test('a moment without reasons is a title', () => {
    expect(airReasons({ widthMm: 185, units: 'metric', moment: { ...moment, steps: [] } }).items).toHaveLength(1)
  })
})

describe('what each measure buys', () => {
  const amounts = (hotH: number | null, usedKWh: number): RemedyAmounts => ({
    hotH,
    coldH: 30,
    wetH: 100,
    mostGPerM2: 10,
    fellL: 1,
    onGearL: 0.2,
    usedKWh,
  })
  const table = (stacked: boolean): Scene =>
    airRemedies({
      ...{ widthMm: 185, currency: 'USD', basis: 'invented' },
      base: { name: 'nothing', after: amounts(200, 0), holdsFrac: null },
      parts: [
        {
          ...{ title: 't', stacked },
          rows: [
            { name: 'a', after: amounts(100, 0), money: 10, note: null, holdsFrac: 0.5 },
            { name: 'b', after: amounts(50, 400), money: null, note: 'n', holdsFrac: null },
          ],
        },
      ],
    })

  test('one at a time each is held against nothing done; stacked, against the row above', () => {
    expect(words(table(false))).toContain('50 (−150)')
    expect(words(table(true))).toContain('50 (−50)')
    expect(words(table(true))).toContain('400 (+400)')
  })

  test('bars of one quantity share one scale: half the hours, half the length', () => {
    const bars = table(false).items.filter((i): i is Line => isLine(i) && i.hatch === 'slant close')
    const long = (bar: Line): number => bar.pointsMm[1]![0] - bar.pointsMm[0]![0]
    expect(long(bars[0]!) / long(bars[REMEDY_QUANTITIES.length]!)).toBeCloseTo(2, 6)
  })

  test('found: what a heater and a hood take away is shown: hours too cold, litres on gear', () => {
    const before = { ...amounts(2, 0), coldH: 3381, onGearL: 2.7 }
    const row = { money: 10, note: null, holdsFrac: null }
    const shown = words(
      airRemedies({
        ...{ widthMm: 185, currency: 'USD', basis: 'invented' },
        base: { name: 'nothing', after: before, holdsFrac: null },
        parts: [
          {
            ...{ title: 't', stacked: false },
            rows: [
              { ...row, name: 'heater', after: { ...before, coldH: 6 } },
              { ...row, name: 'hood', after: { ...before, onGearL: 0 } },
            ],
          },
        ],
      }),
    )
    expect(shown).toContain('6.0 (−3375)')
    expect(shown).toContain('0 (−2.7)')
  })

  test('what is not known is said, never drawn as nothing', () => {
    const scene = airRemedies({
      ...{ widthMm: 185, currency: 'USD', basis: 'invented', parts: [] },
      base: { name: 'nothing', after: amounts(null, 0), holdsFrac: null },
    })
    expect(texts(scene)).toContain('not known')
  })
})

describe('figures in the units a person reads', () => {
  test('degrees, differences, flows and water', () => {
    expect(degreesSaid(-40, 'us')).toBe('−40.0\u202f°F')
    expect(degreesSaid(-40, 'metric')).toBe('−40.0\u202f°C')
    expect(degreesSaid(Number.NaN, 'us')).toBe('not known')
    expect(kelvinSaid(10, 'us')).toBe('18.0\u202f°F')
    // 1 m³/s is 2118.88 ft³/min: 0.3048 m to the foot, exact.
    expect(flowSaid(-1, 'us')).toBe(`${Math.round(60 / 0.3048 ** 3)}\u202fcfm`)
    expect(waterSaid(999, 'metric')).toBe('999\u202fg')
    expect(waterSaid(2500, 'metric')).toBe('2.5\u202fl')
    // A gallon is 3.785 411 784 l and 128 fluid ounces, exact.
    expect(waterSaid(3785.411784, 'us')).toBe('1.00\u202fgal')
    expect(waterSaid(3785.411784 / 16, 'us')).toBe('8.0\u202ffl\u202foz')
    expect(reasonSaid(3.785411784, 'l', 'us')).toBe('1.00\u202fgal')
  })
  test('zero has no sign, and ten thousand is grouped', () => {
    expect(fixed(-0.04, 1)).toBe('0.0')
    expect(fixed(-12_345.6, 0)).toBe('−12\u202f346')
    expect(fixed(1234.5, 1)).toBe('1234.5')
  })
})
