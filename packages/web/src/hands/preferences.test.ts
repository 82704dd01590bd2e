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
    letterKeys: false,
  })
  expect(preferencesFrom('{"theme":"pink","units":7}')).toEqual(USUAL)
})
