import { describe, expect, test } from 'vitest'
import { yearSeason } from '../../job/index.ts'
import { failsOf } from '../remedies/judge.ts'
import { answerRuns } from './answer.ts'
import { monthsOf } from './hours.ts'
import { runsWith } from './join.ts'
import { AIR, answered, found, modelOf, runOf, runsOf, type Scene, verdict, weatherOf, YEAR_H } from './runs.fixture.ts'
import { runIn, standingHours, weatherIn } from './standing.ts'
import { unpluggedOf } from './unplugged.ts'

const summer = yearSeason('1 April', '30 September')!
const winter = yearSeason('15 October', '14 March')!
const JULY_H = 4720

describe('the hours in which a box stands there', () => {
  const weather = weatherOf({ airC: (h) => h / 1000 })

  test('are those of its days, in order from the day it comes, and the clock goes on with them', () => {
    const hours = standingHours(weather, winter)!
    // 17 days of October, 30, 31, 31, 28 and 14 of March.
    expect(hours.length).toBe((17 + 30 + 31 + 31 + 28 + 14) * 24)
    const cut = weatherIn(weather, hours)
    expect([cut.firstDay, cut.firstHour, cut.hoursCount]).toEqual([288, 0, hours.length])
    expect([...cut.columns.airC!.subarray(0, 2)]).toEqual([(287 * 24) / 1000, (287 * 24 + 1) / 1000])
    expect(cut.columns.airC![hours.length - 1]).toBe((73 * 24 - 1) / 1000)
    expect(new Set(monthsOf(cut))).toEqual(new Set([9, 10, 11, 0, 1, 2]))
    expect(standingHours(weather, null)).toBeNull()
  })

  test('a 29 February is left out, and the days after it keep their dates', () => {
    const leap = { ...weatherOf({ hoursCount: 8784 }), year: 2024 }
    const hours = standingHours(leap, yearSeason('20 February', '10 March')!)!
    expect(hours.length).toBe((9 + 10) * 24)
    expect(monthsOf(weatherIn(leap, hours)).indexOf(2)).toBe(9 * 24)
    // 1 March of a leap year is its day 61.
    expect(hours[9 * 24]).toBe(60 * 24)
  })

  test('sums of a run and of its rest make the whole run', () => {
    const run = runOf((s) => s.heaterWh.fill(100))
    const rest = yearSeason('1 October', '31 March')!
    const [a, b] = [summer, rest].map((span) => runIn(run, standingHours(weatherOf(), span)!))
    expect(a!.heaterKWh + b!.heaterKWh).toBeCloseTo(run.heaterKWh, 9)
    expect(a!.hoursCount + b!.hoursCount).toBe(YEAR_H)
  })
})

describe('choice of measures', () => {
  const dew = runOf((s) => s.gearFilmKgPerM2.fill(0.002, JULY_H, JULY_H + 3))
  const fails = (standing: typeof summer | null) =>
    failsOf({
      ...{ model: modelOf(), run: dew, weather: weatherOf(), months: monthsOf(weatherOf()), parts: [], fit: { items: [] } },
      ...{ asks: ['wet'], times: { standing, season: null } },
    })

  test('what fails while the box is away fails nothing; while it is there it is found at its own hour', () => {
    expect(fails(null)).toMatchObject([{ kind: 'dew', atH: JULY_H }])
    expect(fails(summer)).toMatchObject([{ kind: 'dew', atH: JULY_H }])
    expect(fails(winter)).toEqual([])
  })
})

describe('which hours are counted', () => {
  const at = (box: Scene['box'], more: Scene = {}) => answered({ ...more, box: box ?? {} })

  test('is said with months and hours for a box that is used by the season, and not at all for one that is there all year', () => {
    expect(found(answered(), 'air/stay')).toBeUndefined()
    const answer = at({ season: winter })
    expect(found(answer, 'air/stay')).toMatchObject({
      verdict: 'holds',
      said: expect.stringContaining('15 October to 14 March, 3624 h'),
    })
  })

  test('a box that stands elsewhere in its stay leaves that time unknown', () => {
    const stay = { span: null, said: 'It is gone.', elsewhere: true, notes: [] }
    expect(found(at({ stay }), 'air/stay')).toMatchObject({ verdict: 'unknown', said: expect.stringContaining('It is gone.') })
  })
})

describe('out of its season', () => {
  const dewAt =
    (h: number): NonNullable<Scene['tight']> =>
    (s) => {
      s.gearFilmKgPerM2.fill(0.002, h, h + 3)
    }
  const box = { season: winter }

  test('dew that only the supply keeps away leaves it unknown; dew that it does not keep away fails', () => {
    expect(verdict(answered({ box, unplugged: dewAt(JULY_H) }), 'air/unplugged')).toBe('unknown')
    expect(verdict(answered({ box, unplugged: () => {} }), 'air/unplugged')).toBe('holds')
    expect(verdict(answered({ box, tight: dewAt(JULY_H), unplugged: dewAt(JULY_H) }), 'air/unplugged')).toBe('fails')
    expect(found(answered({ box }), 'air/unplugged')).toBeUndefined()
    expect(found(answered({ unplugged: dewAt(JULY_H) }), 'air/unplugged')).toBeUndefined()
  })

  const heated = modelOf({ heater: { at: 'cabinet', powerW: 100, onBelowC: 5, deadBandK: 1, dewMarginK: null } })
  const runsOfSeason = (standing: typeof summer | null) => {
    const asked: {
      readonly name: string
      readonly heater: boolean
      readonly count: number
      readonly startC: number | undefined
    }[] = []
    const made = {
      box: { box: 'yard', wanted: undefined, air: AIR, fit: null, designs: [], season: winter, standing },
      ...{ modelAt: () => heated, notes: [], turnUntold: false, measured: [] },
    }
    const weather = {
      hours: weatherOf(),
      used: { from: 'made', named: '', seed: 1, assumed: [] },
      shorts: {},
      assumed: [],
      borrowed: null,
    } as const
    const runs = runsWith(made, weather, (name, model, hours, options) => {
      asked.push({ name, heater: model.heater !== null, count: hours.hoursCount, startC: options.startC })
      return runOf((s) => s.airC.fill(7, 73 * 24 - 1, 73 * 24), hours.hoursCount)
    })
    return { runs, asked }
  }

  test('the run without current begins where the season ends, as the run with current ends it, and holds the rest of the year', () => {
    const { runs, asked } = runsOfSeason(null)
    const off = asked.filter((one) => !one.heater)
    expect(off.map((one) => one.name)).toEqual(['off season, damp', 'off season, cold'])
    // 14 March is the 73rd day; 214 days lie between it and 15 October.
    expect(off.every((one) => one.count === 214 * 24 && one.startC === 7)).toBe(true)
    expect(runs.ends.tight.unplugged).toMatchObject({
      hours: { firstDay: 74, hoursCount: 214 * 24 },
      on: { hoursCount: 214 * 24 },
    })
  })

  test('of it only the months count in which the box stands here', () => {
    const { runs } = runsOfSeason(yearSeason('1 July', '31 December')!)
    // July, August, September, and 14 days of October.
    expect(runs.ends.leaky.unplugged?.off.hoursCount).toBe((31 + 31 + 30 + 14) * 24)
    expect(runs.weather.hoursCount).toBe(184 * 24)
  })

  test('a box without current has no heater, no fan, no heat of gear and nobody who comes in; one with neither heater nor fan has no other state', () => {
    const heater = { at: 'cabinet', powerW: 100, onBelowC: 5, deadBandK: 1, dewMarginK: null } as const
    const used = { waterKgS: new Float64Array(288).fill(1e-6), doorOpenS: new Float64Array(24).fill(10) }
    const off = unpluggedOf(modelOf({ heater, ...used }))!
    expect([off.heater, off.fan]).toEqual([null, null])
    for (const series of [off.gearHeatW, off.airHeatW, off.waterKgS, off.doorOpenS])
      expect(series.every((value) => value === 0)).toBe(true)
    expect(unpluggedOf(modelOf())).toBeNull()
  })
})

describe('humidity that a file does not hold', () => {
  const file = (from: 'file' | 'generated', how: string): Scene => ({
    weather: { ...weatherOf(), origins: { vapourPa: { from, how } } },
    used: { from: 'file', named: 'roof.csv' },
  })
  const damp = (answer: ReturnType<typeof answered>) =>
    ['air/humid', 'air/drip', 'air/mould'].map((code) => verdict(answer, code))

  test('leaves damp unknown, and heat and cold as they are', () => {
    const made = answered(file('generated', 'from means'))
    expect(damp(made)).toEqual(['unknown', 'unknown', 'unknown'])
    expect(verdict(made, 'air/hot')).toBe('holds')
    expect(found(made, 'air/humid')?.said).toContain('was not read from roof.csv')
    expect(damp(answered(file('file', 'read; long gaps from means')))).toEqual(['unknown', 'unknown', 'unknown'])
    expect(damp(answered(file('file', 'read')))).toEqual(['holds', 'holds', 'holds'])
  })
})

describe('cooled and heated as told', () => {
  const told = (cooled: string, air: Scene['air'] = {}) => {
    const scene = answered({ wanted: { cooled }, air })
    return found(scene, 'air/cooled')
  }
  test('the first thing that the words name is held against the design; a cooling machine is in no model', () => {
    expect(found(answered(), 'air/cooled')).toBeUndefined()
    const fan = { powerW: 60, solar: false, onAboveC: 35, byHumidity: false }
    expect(told('a filtered fan first; an air conditioner later', { fan })?.verdict).toBe('holds')
    expect(told('a filtered fan first; an air conditioner later')?.verdict).toBe('tight')
    expect(told('air conditioner', { fan })?.verdict).toBe('unknown')
    expect(told('somehow', { fan })).toMatchObject({ verdict: 'unknown', said: expect.stringContaining('cannot be read') })
  })

  test('an unheated box is judged by the least its parts stand, −5 °C for a breaker, and by no warmer target', () => {
    const cold = (airC: number, heatedC: Scene['wanted']) =>
      answered({
        wanted: heatedC ?? {},
        air: AIR,
        tight: (s) => {
          s.airC.fill(airC, 100, 106)
          s.gearC.fill(airC, 100, 106)
        },
      })
    const heldC = { heatedC: { low: 5, high: 5, basis: 'test', told: true } }
    const of = (airC: number) => [null, heldC].map((w) => verdict(cold(airC, w ?? { heatedC: null }), 'air/cold', 'breakers'))
    expect([of(0), of(-4), of(-6)]).toEqual([
      ['holds', 'holds'],
      ['tight', 'tight'],
      ['fails', 'fails'],
    ])
  })
})

describe('two boxes in one yard', () => {
  const own = { air: AIR, fit: { items: [] }, wanted: undefined, designs: [] }
  const answer = answerRuns({
    yard: { corrosivity: 'C2' },
    boxes: [
      { ...own, box: 'tower' },
      { ...own, box: 'yard', standing: summer },
    ],
    runsOf: ({ box }) => ({
      runs: runsOf(box === 'tower' ? { tight: (s) => s.gearFilmKgPerM2.fill(0.002, 100, 103) } : {}),
    }),
  })

  test('each answers by its own air, and every finding and result names its box', () => {
    expect(answer.result.boxes.map((b) => b.box)).toEqual(['tower', 'yard'])
    const dew = answer.findings.filter((f) => f.code === 'air/dew-on-gear')
    expect(dew.map((f) => [f.subject, f.verdict])).toEqual([
      ['tower', 'fails'],
      ['yard', 'holds'],
    ])
    expect(answer.findings.every((f) => /^(tower|yard)\b/.test(f.subject))).toBe(true)
    expect(new Set(answer.workings.map((w) => w.id)).size).toBe(answer.workings.length)
  })

  test('the months of the one are not those of the other', () => {
    expect(answer.findings.filter((f) => f.code === 'air/stay').map((f) => f.subject)).toEqual(['yard'])
  })
})
