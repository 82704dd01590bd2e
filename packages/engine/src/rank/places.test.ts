import { expect, test } from 'vitest'
import type { Model } from '../parts/index.ts'
import { normalNamed } from '../weather/index.ts'
import { placesWork } from './index.ts'
import { shopAt } from './shops.fixture.ts'

const shop = shopAt('shop')
const model = shop.stock!.models.find((m) => m.id === 'yard-20')!
const inPlaces = (of: Model) => placesWork(of, shop)!
const withHeater = (heater: string | undefined): Model => {
  const { heater: _had, ...body } = model.body
  return { ...model, body: heater === undefined ? body : { ...body, heater } }
}
const work = inPlaces(model)
const place = (name: RegExp) => work.places.find((p) => name.test(p.name))!
const COLD = place(/Fairbanks/)

test('every place of the table is asked, once', () => {
  expect(work.places).toHaveLength(44)
  expect(new Set(work.places.map((p) => p.name)).size).toBe(44)
})

test('where the air outside is far below what gear stands, a box without heat fails by its cold; a heater in its cabinet changes what fails', () => {
  // Means of January there: −22 °C; breakers stand −5 °C. No box without heat is warmer than its air for days on end.
  const bare = work.part(COLD)
  expect([bare.verdict, bare.coldC! < -35]).toEqual(['fails', true])
  expect(bare.codes).toContain('air/cold')
  const heated = inPlaces(withHeater('400 W in the cabinet')).part(COLD)
  expect(heated.codes).not.toEqual(bare.codes)
}, 240_000)

test('a sheet that does not say whether there is a heater leaves its places unknown, never good', () => {
  const untold = inPlaces(withHeater(undefined))
  const part = untold.part(place(/Singapore/))
  expect(part).toMatchObject({ verdict: 'unknown', codes: ['air/missing'] })
  expect(untold.found([part])).toMatchObject({ coldestMonthC: null, hottestMonthC: null })
}, 240_000)

test('the band is the coldest and the hottest month of the places in which nothing fails', () => {
  const row = (name: string, verdict: 'holds' | 'tight' | 'unknown' | 'fails') => ({
    ...{ place: name, coldC: null, hotC: null, verdict, codes: [] },
  })
  const [good, fair] = [place(/Miami/), place(/Singapore/)]
  const months = [good, fair].flatMap((p) => normalNamed(p.name)!.highestC.map((high, m) => [high, p.lowestC[m]!] as const))
  const { coldestMonthC, hottestMonthC } = work.found([row(good.name, 'holds'), row(fair.name, 'tight'), row(COLD.name, 'fails')])
  expect(coldestMonthC!).toBeGreaterThan(Math.min(...months.map(([, low]) => low)))
  expect(hottestMonthC!).toBeLessThan(Math.max(...months.map(([high]) => high)))
  expect(coldestMonthC!).toBeLessThan(hottestMonthC!)
  const all = work.found([row(good.name, 'holds'), row(COLD.name, 'holds')])
  expect(all.coldestMonthC!).toBeLessThan(-15)
  expect(work.found([row(good.name, 'holds'), row(COLD.name, 'unknown')]).coldestMonthC!).toBeGreaterThan(0)
})
