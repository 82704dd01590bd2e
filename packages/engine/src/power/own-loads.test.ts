import { expect, test } from 'vitest'
import { exampleJob } from '../haul/yard.fixture.ts'
import { consistencyFindings } from '../job/index.ts'
import { ruleSets } from '../rules/index.ts'
import { ownLoadsOf } from './own-loads.ts'

const job = exampleJob('groomer-yard-us')
const [box] = job.boxes
const pinned = (value: string | number) => ({ ...job, pins: [{ path: 'lights.yard.count', value, by: 'the yard', why: 'test' }] })
const lightW = (of: typeof job) => ownLoadsOf(of, box!, ruleSets.us).find((l) => l.own === 'light')!.powerW

test('strips asked for by the room, or pinned, are what the box draws for light', () => {
  expect(lightW(job)).toBe(90)
  expect(lightW(pinned(5))).toBe(150)
  expect(lightW({ ...job, surveys: [{ ...job.surveys[0]!, box: 'yard', lengthMm: 12_192, innerLengthMm: 12_032 }] })).toBe(120)
})

test('a pin that is no number of strips is said and not taken', () => {
  expect(lightW(pinned('many'))).toBe(90)
  expect(consistencyFindings(pinned('many')).find((f) => f.code === 'needs/pin-unknown')?.said).toContain('no number of strips')
  expect(consistencyFindings(pinned(2)).filter((f) => f.code === 'needs/pin-unknown')).toEqual([])
})

const airPin = (choice: string, value: string) => ({
  ...job,
  pins: [{ path: `air.yard.${choice}`, value, by: 'me', why: 'test' }],
})
const own = (of: typeof job) => ownLoadsOf(of, box!, ruleSets.us).map((l) => [l.own, l.powerW])

test('a heater and a fan that are pinned are what the box is wired for; a fan in the sun and “no” are no load', () => {
  expect(own(job)).toEqual([
    ['light', 90],
    ['heater', 1500],
    ['fan', 60],
    ['control', 20],
    ['receptacle', 180],
  ])
  expect(own(airPin('heater', '150 W cabinet'))[1]).toEqual(['heater', 150])
  expect(own(airPin('heater', 'no')).map(([kind]) => kind)).toEqual(['light', 'fan', 'control', 'receptacle'])
  expect(own(airPin('fan', '90 W'))[2]).toEqual(['fan', 90])
  expect(own(airPin('fan', '12 W solar')).map(([kind]) => kind)).toEqual(['light', 'heater', 'control', 'receptacle'])
  expect(own(airPin('fan', 'huge'))).toEqual(own(job))
})

test('what the design of a box has is wired where it is larger than the house rule’s; what it has not is wired for nobody', () => {
  const wiredFor = (wired: NonNullable<NonNullable<typeof box>['wired']>, of = job) =>
    ownLoadsOf(of, { ...box!, wired }, ruleSets.us).filter((l) => l.own === 'heater' || l.own === 'fan')
  expect(wiredFor({ heater: { powerW: 2400, at: 'cabinet' }, fanW: 100 })).toMatchObject([
    { own: 'heater', powerW: 2400, at: 'cabinet', rests: { provenance: 'computed' } },
    { own: 'fan', powerW: 100 },
  ])
  const [smaller] = wiredFor({ heater: { powerW: 250, at: 'cabinet' }, fanW: null })
  expect(smaller).toMatchObject({ own: 'heater', powerW: 1500 })
  expect(smaller!.at).toBeUndefined()
  expect(wiredFor({ heater: null, fanW: null })).toEqual([])
  // What a person asked for stays.
  expect(wiredFor({ heater: null, fanW: null }, airPin('heater', '1000 W room'))).toMatchObject([{ own: 'heater', powerW: 1000 }])
})
