import { expect, test } from 'vitest'
import { folded, hashOf, type Route, routeOf } from './route.ts'

const routes: readonly Route[] = [
  { page: 'today' },
  { page: 'call' },
  { page: 'six sides', job: 'a job/with & odd?name' },
  {
    page: 'six sides',
    job: 'j',
    box: 'yard',
    side: 'blind end',
    thing: { box: 'yard', id: 'receptacle G4C' },
    working: 'G4C/drop',
  },
  { page: 'room', job: 'j', question: 'reach', working: 'yard/cut 12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)' },
  { page: 'room', job: 'j', question: 'air', air: { box: 'the yard', end: 'leaky', days: { fromH: 4008, atH: 4020 } } },
  { page: 'room', job: 'j', question: 'air', air: { run: 'cold spell', days: { fromH: 0, atH: 30 } } },
  { page: 'rule', job: 'j' },
  { page: 'compare', job: 'j', with: 'pole 200 A, staged by timers' },
  { page: 'six sides', job: 'j', box: 'yard', side: 'yard', phase: 'second' },
  { page: 'six sides', job: 'j', box: 'yard', side: 'left', thing: { box: 'yard', id: 'panel' }, act: 'move machine' },
  { page: 'paper', job: 'j', sheet: 'six-sides' },
]

test('an address leads back to the place it was made of', () => {
  for (const route of routes) expect(routeOf(hashOf(route))).toEqual(route)
})

test('an empty or unheard-of address opens the example', () => {
  for (const hash of ['', '#', '#/', '#/nowhere', '#/job/'])
    expect(routeOf(hash)).toEqual({ page: 'six sides', job: 'groomer-yard-us' })
  for (const odd of ['?hour=noon&from=3', '?end=loose', '?hour=12'])
    expect(routeOf(`#/job/j/room/air${odd}`)).toEqual({ page: 'room', job: 'j', question: 'air' })
  expect(routeOf('#/job/j/room/weather')).toEqual({ page: 'six sides', job: 'j' })
})

test('folding takes off one level at a time and ends at today', () => {
  const thing = { box: 'yard', id: 'panel' }
  let at: Route = { page: 'six sides', job: 'j', box: 'yard', side: 'left', thing, working: 'w' }
  const seen: Route[] = []
  while (at.page !== 'today') {
    at = folded(at)
    seen.push(at)
  }
  expect(seen).toEqual([
    { page: 'six sides', job: 'j', box: 'yard', side: 'left', thing },
    { page: 'six sides', job: 'j', box: 'yard', thing },
    { page: 'six sides', job: 'j', box: 'yard' },
    { page: 'today' },
  ])
  expect(folded({ page: 'room', job: 'j', question: 'fit', thing })).toEqual({ page: 'room', job: 'j', question: 'fit' })
  expect(folded({ page: 'room', job: 'j', question: 'fit' })).toEqual({ page: 'six sides', job: 'j' })
})

test('what is in the hand is put back before the thing is let go', () => {
  const thing = { box: 'yard', id: 'panel' }
  expect(folded({ page: 'six sides', job: 'j', thing, act: 'move' })).toEqual({ page: 'six sides', job: 'j', thing })
  expect(folded({ page: 'compare', job: 'j', with: 'before' })).toEqual({ page: 'six sides', job: 'j' })
})
