import { expect, test } from 'vitest'
import { budgetOf } from './budget.ts'
import { ringBackOf } from './first.ts'
import { spanOf } from './span.ts'

const price = {
  lines: [
    { what: 'price of what stands', money: 5000 },
    { what: 'parts of the changes', money: 2000 },
    { what: 'hours of the changes', money: 8000 },
    { what: 'margin on what is done', money: 2500 },
  ],
  ...{ totalMoney: 17_500, isFloor: false, isPriced: true, lacking: [], currency: 'USD', is: 'sale' as const },
}

test('only what the hours cost, and the margin on them, runs with the hours: 80 to 150 of 100 likely', () => {
  expect(spanOf(price, [{ low: 80, middle: 100, high: 150 }])).toEqual({
    ...{ lowMoney: 15_500, likelyMoney: 17_500, highMoney: 22_500, isFloor: false, currency: 'USD' },
  })
  expect(spanOf(price, [])).toMatchObject({ lowMoney: 17_500, highMoney: 17_500 })
})

type Chain = Parameters<typeof ringBackOf>[0]['chain']
const task = (id: string, finish: string | null) => ({ id, finish, done: null, what: id, who: 'somebody' }) as Chain[number]

test('the ring-back waits for the last of those who were asked, and is not known where one of them is not', () => {
  const chain = [task('drawings', '2027-03-09'), task('hire', '2027-03-04'), task('design.interim', '2027-04-20')]
  expect(ringBackOf({ chain })?.day).toBe('2027-04-20')
  expect(ringBackOf({ chain: chain.slice(0, 1) })?.day).toBe('2027-03-09')
  expect(ringBackOf({ chain: [...chain, task('agreement', null)] })).toBeNull()
  expect(ringBackOf({ chain: [] })).toBeNull()
})

type Money = Parameters<typeof budgetOf>[0]
const money = (price: Partial<Money['price']>): Money => ({
  price: {
    costMoney: 9000,
    passedMoney: 1000,
    marginFrac: 0.2,
    priceMoney: 11_000,
    isFloor: false,
    tax: null,
    ...price,
  } as Money['price'],
  spread: { lowMoney: 8200, highMoney: 10_600 } as Money['spread'],
  ...{ groups: [], lacking: [], currency: 'USD' },
})

test('the ends of the cost go through the margin: 20 % of the price on all but the 1000 that are passed through', () => {
  expect(budgetOf(money({}))).toMatchObject({ lowMoney: 10_000, likelyMoney: 11_000, highMoney: 13_000 })
  expect(budgetOf(money({ marginFrac: null, priceMoney: null }))).toMatchObject({
    lowMoney: 8200,
    likelyMoney: 9000,
    highMoney: 10_600,
  })
  expect(budgetOf({ ...money({}), spread: null })).toBeNull()
})
