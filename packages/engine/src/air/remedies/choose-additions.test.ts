import { expect, test } from 'vitest'
import type { AirJob } from '../model/box-model.ts'
import { daysOf, yardTask } from './choose.fixture.ts'
import { airThatStands, chooseAdditions } from './choose-additions.ts'
import type { AirChoiceTask } from './choose-air.ts'

const yard = yardTask()
type Body = NonNullable<AirJob['builtBody']>

/** The yard's box as if it stood, over some days of another climate. */
function standing(words: Partial<Body>, byK: number): AirChoiceTask {
  const body: Body = {
    ...{ lengthFt: 20, heightKind: 'standard', tareKg: null, fitOutKg: null, weighedKg: null, transportPlate: null },
    ...{ lowestExitM: null, setDown: null, airMaxC: null, paint: 'dark red', insulation: 'none', heater: 'none', vents: 'none' },
    ...words,
  }
  return {
    ...yard,
    job: { ...yard.job, builtBody: body },
    weather: { ...daysOf(yard.weather, 24 * 5, 24 * 12, byK), shorts: {} },
  }
}

const VENTS = 'two low and two high, 180 cm2 free each, 3 mm mesh'
const WARM = { insulation: '50 mm foam on roof', heater: '400 W in the cabinet', vents: VENTS }

test('no box stands: nothing is added to it', () => {
  expect(chooseAdditions(yard)).toBeNull()
})

test('what is built stays and costs nothing, whatever is added', () => {
  const task = standing(WARM, -10)
  const found = chooseAdditions(task)!
  const { stands } = airThatStands(task.job, task.build)!
  expect(stands).toMatchObject({ roofFoamM: 0.05, wallFoamM: 0, heater: { powerW: 400, at: 'cabinet' } })
  expect(found.air).toMatchObject({ roofFoamM: 0.05, heater: { powerW: 400, at: 'cabinet' } })
  expect(found.air.vents.filter((v) => !v.fan)).toEqual([])
  expect(found.chosen.find((said) => said.startsWith('vents'))).toMatch(/^vents as built/)
  // Nothing but what differs from what stands has a price.
  const same = JSON.stringify({ ...found.air, vents: [] }) === JSON.stringify({ ...stands, vents: [] })
  expect(found.firstMoney > 0).toBe(!same)
})

test('bare in the cold it is given what keeps its gear above what it stands; where it is mild, less', () => {
  const [cold, mild] = [-15, 12].map((byK) => chooseAdditions(standing({}, byK))!)
  expect(cold!.holds).toBe(true)
  expect(cold!.air.heater).not.toBeNull()
  expect(mild!.firstMoney).toBeLessThan(cold!.firstMoney)
  expect(mild!.air.heater?.powerW ?? 0).toBeLessThan(cold!.air.heater!.powerW)
  // No vent was told to stand: only then may one be cut.
  for (const one of [cold, mild]) expect(one!.chosen.find((said) => said.includes('vents'))).not.toContain('as built')
})
