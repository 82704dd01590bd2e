import { seeded } from '../packages/engine/src/kernel/index.ts'
import { calendar } from '../packages/engine/src/site/dates/calendar.ts'
import { type Drawn, draws } from '../packages/engine/src/site/dates/draws.ts'
import { type Crewed, latestStarts, levelled, orderOf } from '../packages/engine/src/site/dates/level.ts'
import type { Bench } from './run.ts'

const DRAWS = 10_000

/** Tasks of four calendars, each waiting for up to three before it. Invented, seeded. */
function chain(count: number): readonly Drawn[] {
  const random = seeded(7)
  const within = { fromD: 20_000, toD: 20_000 + 2300 }
  const free = new Set(Array.from({ length: 60 }, () => 20_000 + random.below(2300)))
  const calendars = [
    calendar({ name: 'every day', within, weekdays: [0, 1, 2, 3, 4, 5, 6], free: new Set(), closed: [] }),
    calendar({ name: 'office', within, weekdays: [0, 1, 2, 3, 4], free, closed: [] }),
    calendar({ name: 'road', within, weekdays: [0, 1, 2, 3, 4], free, closed: [{ fromD: 20_300, toD: 20_480 }] }),
    calendar({
      name: 'shop',
      within,
      weekdays: [0, 1, 2, 3, 4],
      free,
      closed: [],
      booked: [{ fromD: 20_020, toD: 20_060, shareFrac: 0.5 }],
    }),
  ]
  return Array.from({ length: count }, (_, i) => {
    const likely = 1 + random.below(12)
    return {
      id: `t${i}`,
      after: i === 0 ? [] : [...new Set([Math.max(0, i - 1 - random.below(6)), random.below(i)])],
      calendar: random.pick(calendars),
      takesDays: likely,
      span: { low: likely * 0.7, likely, high: likely * 1.8 },
    }
  })
}

/** Every other task takes one of four crews; the crews are put in order, and the draws hold that order. */
function crewed(net: readonly Drawn[]): readonly Drawn[] {
  const with4: readonly (Drawn & Crewed)[] = net.map((t, i) =>
    i % 2 === 0 ? t : { ...t, crews: { [`crew ${(i >> 1) % 4}`]: 1 } },
  )
  const { behind } = levelled(with4, 20_010, () => 1, latestStarts(with4, [with4.length - 1], 20_400))
  const order = orderOf(with4, behind)
  const at = new Map(order.map((old, now) => [old, now]))
  return order.map((old) => ({ ...with4[old]!, after: [...with4[old]!.after, ...behind[old]!].map((p) => at.get(p)!) }))
}

const sixty = chain(60)

export const benches: readonly Bench[] = [
  {
    name: `dates, 60 tasks, ${DRAWS} draws`,
    limitS: 0.3,
    run: () => draws({ net: sixty, fromD: 20_010, count: DRAWS, seed: 1, ends: [59], byD: 20_200 }).lateFrac,
  },
  {
    name: `dates, 60 tasks of four crews put in order, ${DRAWS} draws`,
    limitS: 0.3,
    run: () => {
      const net = crewed(sixty)
      const ends = [net.findIndex((t) => t.id === 't59')]
      return draws({ net, fromD: 20_010, count: DRAWS, seed: 1, ends, byD: 20_200 }).lateFrac
    },
  },
]
