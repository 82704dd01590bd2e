import { expect, test } from 'vitest'
import { type CallAnswers, consistencyFindings, type Job, newJob, readJob } from './index.ts'

const bare: CallAnswers = { where: 'Northgate, AK, US', machines: '6 groomer heater 1500 W 120 V; 1 compressor 3 hp 240 V' }
const text = (answers: CallAnswers): string => {
  const made = newJob(answers)
  if (!made.ok) throw new Error(JSON.stringify(made.problems))
  return made.value
}
const job = (answers: CallAnswers): Job => {
  const read = readJob(text(answers))
  if (!read.ok) throw new Error(`${text(answers)}\n${JSON.stringify(read.problems, null, 1)}`)
  return read.value
}

test('two answers make a job that reads back, with every default listed as assumed', () => {
  const made = job(bare)
  expect(made.rules.set).toBe('us')
  expect(made.plugs).toHaveLength(7)
  expect(made.plugs[5]).toMatchObject({
    tag: 'M1.6',
    powerW: 1500,
    voltageV: 120,
    outlet: '5-20R',
    cordM: 30,
    fromH: 19,
    readyH: 7,
  })
  expect(made.plugs[6]).toMatchObject({ kind: 'motor', motor: { hp: 3 } })
  const assumed = made.assumed.map((a) => a.path)
  for (const path of [
    'needs.stay',
    'needs.growth',
    'needs.machines[0].hours',
    'needs.machines[0].cord',
    'facts.supply.system',
    'facts.supply.offers[0].service',
    'facts.supply.offers[1].generator',
    'needs.buy-or-rent',
    'boxes[0].length',
  ]) {
    expect(assumed, path).toContain(path)
  }
  expect(new Set(consistencyFindings(made).map((f) => f.code))).toEqual(new Set(['supply/missing']))
})

test('told answers are told: they are not listed as assumed', () => {
  const made = job({
    ...bare,
    when: '06:00, every day, all year',
    far: '100 ft',
    power: 'pole 40 m, 120/240 V; neighbour 90 m',
    stay: '18 months, no move, +50 %',
    ground: 'frozen silt, crane, lines over the gate',
    forbidden: 'noise from 22:00 to 07:00; digging',
    by: '2027-10-15',
    buy: 'rent, 4000 a month',
    stands: 'a dead 100 A service: locked off by the utility',
  })
  expect(made.needs).toMatchObject({
    stayMonths: 18,
    growthFrac: 0.5,
    neededBy: '2027-10-15',
    forbidden: ['noise from 22:00 to 07:00', 'digging'],
  })
  expect(made.offers.map((o) => [o.kind, o.distanceM])).toEqual([
    ['utility', 40],
    ['neighbour', 90],
  ])
  expect(Math.max(...made.plugs.map((p) => p.cordM))).toBeCloseTo(30.5, 6)
  const assumed = made.assumed.map((a) => a.path)
  for (const path of ['needs.stay', 'needs.growth', 'facts.supply.system', 'facts.site.stands-there', 'needs.season.days'])
    expect(assumed, path).not.toContain(path)
})

test('watts and volts that nobody told are asked for, not guessed', () => {
  const made = job({ ...bare, machines: '2 truck heater; 1 thing 500 W' })
  expect(made.plugs).toEqual([])
  expect(made.missing?.map((m) => m.path)).toEqual(
    expect.arrayContaining(['needs.machines[0].power', 'needs.machines[0].voltage', 'needs.machines[1].voltage']),
  )
  expect(text({ ...bare, machines: '2 truck heater' })).toContain('# ask: for which voltage?')
})

test.each([
  ['Whitehorse, YT, CA', 'ca'],
  ['Whitehorse, Canada', 'ca'],
  ['Leeds, GB', 'intl'],
  ['Reno, NV, USA', 'us'],
])('%s is judged by %s', (where, set) => {
  expect(job({ ...bare, where }).rules.set).toBe(set)
})

test.each(['Fresno, CA', 'Northgate', 'Anchorage, AK', 'Halifax, NS', ''])(
  '“%s” does not say its country: it is asked, not guessed',
  (where) => {
    expect(newJob({ ...bare, where })).toMatchObject({ ok: false, problems: [{ path: 'where' }] })
  },
)

test('all answers that cannot be understood come back at once', () => {
  const made = newJob({ where: 'X', machines: ' ; ', when: 'soon', far: '30', by: '1 November', stay: 'long' })
  expect(made.ok ? [] : made.problems.map((p) => p.path)).toEqual(['where', 'machines', 'when', 'far', 'stay', 'by'])
})

test.each(['no', '# hash', 'a: b', "it's", '{x', '- dash', 'null', '"', '*star', '12:30', 'back\\slash'])(
  'odd words survive as they were said: %s',
  (word) => {
    const made = job({ ...bare, stands: word, forbidden: word })
    expect(made.needs.forbidden).toEqual([word])
  },
)

test('the day of the call and the day promised stand in the document; unsaid, neither does', () => {
  const made = newJob(bare, { called: '2027-03-02', ringBack: '2027-03-05' })
  const read = made.ok ? readJob(made.value) : made
  expect(read.ok && read.value.needs).toMatchObject({ orderDate: '2027-03-02', ringBack: '2027-03-05' })
  expect(job(bare).needs).toMatchObject({ orderDate: null, ringBack: null })
})
