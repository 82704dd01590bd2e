import { expect, test } from 'vitest'
import { preferencesFrom, USUAL } from './preferences.ts'

test('what was kept is taken over, what means nothing is left', () => {
  expect(preferencesFrom(null)).toEqual(USUAL)
  expect(preferencesFrom('not json')).toEqual(USUAL)
  expect(preferencesFrom('null')).toEqual(USUAL)
  expect(preferencesFrom('{"theme":"sunlight","units":"us","gloves":true,"letterKeys":false}')).toEqual({
    theme: 'sunlight',
    units: 'us',
    gloves: true,
    glass: null,
    letterKeys: false,
  })
  expect(preferencesFrom('{"glass":{"pxPerMm":5,"dotsPerPx":2}}').glass).toEqual({ pxPerMm: 5, dotsPerPx: 2 })
  expect(preferencesFrom('{"theme":"pink","units":7}')).toEqual(USUAL)
})
