import { expect, test } from 'vitest'
import { oneOfThirty } from '../../weather/index.ts'
import { climateForYear } from '../facts/climate.ts'
import { surroundingsOf, yearOf } from '../year/index.ts'
import { yardTask } from './choose.fixture.ts'
import { type RemedyPart, remediesOf, remediesStepwise } from './table.ts'
import { variantsOf } from './variants.ts'

const yard = yardTask()
const climate = climateForYear(yard.job)
if ('lacks' in climate) throw new Error('climate')
const task = { ...yard, climate: climate.climate, yearsCount: 2 }

const counts: number[] = []
const inTurn = (() => {
  const steps = remediesStepwise(remediesOf(task))
  for (;;) {
    const next = steps.next()
    if (next.done === true) return next.value
    expect(next.value.ofCount).toBe(4)
    counts.push(next.value.doneCount)
  }
})()

test('the work is told piece by piece', () => {
  expect(counts).toEqual([0, 1, 2, 3])
})

test('two workers that share the pieces, in any order, give the same table to the byte', () => {
  const [one, other] = [remediesOf(task), remediesOf(task)]
  // As they come from another thread: plain, and the later one first.
  const sent = (part: RemedyPart): RemedyPart => structuredClone(part)
  const alone = one.steps('alone')
  const first = [sent(other.part(alone[1]!, [])), sent(one.part(alone[0]!, []))]
  const order = one.orderOf(first)
  expect(other.orderOf(first.toReversed())).toEqual(order)
  const stacked = one.steps('stacked')
  const second = [sent(one.part(stacked[1]!, order)), sent(other.part(stacked[0]!, order))]
  expect(JSON.stringify(one.table(first, second))).toBe(JSON.stringify(inTurn))
})

test('eight measures are stacked in the order of what they pay, and the last stack has them all', () => {
  expect(inTurn.stacked).toHaveLength(8)
  expect(inTurn.alone.map((r) => r.id)).toContain('solar fan')
  expect(inTurn.stacked.map((r) => r.id)).not.toContain('solar fan')
  const before = inTurn.base.after
  const paid = inTurn.stacked.map((r) => {
    const alone = inTurn.alone.find((a) => a.id === r.id)!
    return (before.wrongH - alone.after.wrongH) / Math.max(1, alone.money!)
  })
  expect(paid).toEqual(paid.toSorted((a, b) => b - a))
  expect(inTurn.stacked[0]!.after).toEqual(inTurn.alone.find((a) => a.id === inTurn.stacked[0]!.id)!.after)
})

test('a drip hood changes what lands on gear and nothing else', () => {
  const { onGearL: _a, wrongH: _b, ...hooded } = inTurn.alone.find((r) => r.id === 'drip hood')!.after
  const { onGearL: _c, wrongH: _d, ...base } = inTurn.base.after
  expect(hooded).toEqual(base)
  expect(inTurn.alone.find((r) => r.id === 'drip hood')!.after.onGearL).toBe(0)
})

test('so a run with a hood is the run without it, to the bit, but for what lands on gear: where nothing falls one run stands for both', () => {
  const modelOf = variantsOf(task)
  const around = surroundingsOf(modelOf(task.build.air, 'middle'), oneOfThirty(task.climate, 1), { stepsPerHour: 2 })
  const [bare, hooded] = [false, true].map(
    (dripHood) => yearOf(modelOf({ ...task.build.air, dripHood }, 'middle'), around).series,
  )
  const { fellOnGearKg: _a, ...one } = bare!
  const { fellOnGearKg: _b, ...other } = hooded!
  expect(other).toEqual(one)
})

test('a heater in the cabinet takes the cold from the gear, a foamed roof the frost from the sheet', () => {
  const of = (id: string) => inTurn.alone.find((r) => r.id === id)!.after
  expect(of('cabinet heater').coldH).toBeLessThan(inTurn.base.after.coldH / 10)
  expect(of('roof foam').wetH).toBeLessThan(inTurn.base.after.wetH)
  expect(of('cabinet heater').heaterKWh).toBeGreaterThan(0)
})

test('a fan driven by the sun is said never to run on the night that frosts', () => {
  expect(inTurn.alone.find((r) => r.id === 'solar fan')!.note).toBe('driven by the sun, it never runs on the night that frosts')
})

test('the design as laid out is judged in every year', () => {
  const { heldYearsCount, failed } = inTurn.design
  expect(heldYearsCount + failed.length).toBe(2)
  // Nothing was chosen for it: its gear is cold in both.
  expect(failed.map((f) => f.year)).toEqual([1, 2])
  for (const { kinds } of failed) expect(kinds).toContain('cold')
})
