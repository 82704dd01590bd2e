import { isoDay } from '../../kernel/index.ts'
import { calendar } from './calendar.ts'
import { draws } from './draws.ts'
import { easterD } from './holidays.ts'
import { type Activity, driving, earliest, latest } from './network.ts'
import { normalFrac, pertMoments } from './three-point.ts'

type Given = any

const EVERY = calendar({
  name: 'every day',
  within: { fromD: 0, toD: 400 },
  weekdays: [0, 1, 2, 3, 4, 5, 6],
  free: new Set(),
  closed: [],
})

interface Row {
  readonly id: string
  readonly after: readonly string[]
  readonly three: { readonly low: number; readonly likely: number; readonly high: number }
}

/** Rows of a published table, each behind those it waits for. */
function rowsOf(net: Record<string, [number | [number, number, number], string[]]>): readonly Row[] {
  return Object.entries(net).map(([id, [takes, after]]) => {
    const [low, likely, high] = typeof takes === 'number' ? [takes, takes, takes] : takes
    return { id, after, three: { low, likely, high } }
  })
}

function solved(given: Given): Record<string, unknown> {
  const rows = rowsOf(given.net)
  const order: Row[] = []
  while (order.length < rows.length)
    order.push(rows.find((r) => !order.includes(r) && r.after.every((id) => order.some((o) => o.id === id)))!)
  const moments = order.map((r) => pertMoments(r.three))
  const net: Activity[] = order.map((r, i) => ({
    id: r.id,
    after: r.after.map((id) => order.findIndex((o) => o.id === id)),
    calendar: EVERY,
    takesDays: moments[i]!.mean,
  }))
  // One end behind all that nothing waits for.
  const open = net.flatMap((_, i) => (net.some((b) => b.after.includes(i)) ? [] : [i]))
  const whole: Activity[] = [...net, { id: 'end', after: open, calendar: EVERY, takesDays: 0 }]
  const early = earliest(whole, 0)
  const length = early[net.length]!.finishD
  const late = latest(whole, [net.length], length)
  const path = [...driving(whole, early, net.length)].filter((i) => i < net.length).sort((a, b) => a - b)
  const of = (value: (i: number) => number) => Object.fromEntries(order.map((r, i) => [r.id, value(i)]))
  const variance = path.reduce((sum, i) => sum + moments[i]!.variance, 0)
  return {
    mean: of((i) => moments[i]!.mean),
    sd: of((i) => Math.sqrt(moments[i]!.variance)),
    ES: of((i) => early[i]!.startD),
    EF: of((i) => early[i]!.finishD),
    LS: of((i) => late[i]!.startD),
    LF: of((i) => late[i]!.finishD),
    slack: of((i) => late[i]!.startD - early[i]!.startD),
    critical: path
      .map((i) => order[i]!.id)
      .toSorted()
      .join(' '),
    length,
    variance,
    ...(given.by === undefined ? {} : { chance: normalFrac((given.by - length) / Math.sqrt(variance)) }),
  }
}

/** Published cases of the chain, answered by the functions the question itself uses. */
export const datesCases: Record<string, (given: Given) => Record<string, unknown>> = {
  'cpm-01': solved,
  'cpm-02': solved,
  'pert-01': solved,
  'pert-02': solved,
  'pert-03': solved,
  'easter-01': (g) => ({ days: g.years.map((y: number) => isoDay(easterD(y))) }),
  'draws-01': (g) => {
    const net = g.spans.map(([low, likely, high]: [number, number, number], i: number) => ({
      ...{ id: `t${i}`, after: [], calendar: EVERY, takesDays: likely, span: { low, likely, high } },
    }))
    const end = {
      id: 'end',
      after: net.map((_: unknown, i: number) => i),
      calendar: EVERY,
      takesDays: 0,
      span: { low: 0, likely: 0, high: 0 },
    }
    return { late: draws({ net: [...net, end], fromD: 0, count: 10_000, seed: 1, ends: [net.length], byD: g.by }).lateFrac }
  },
}
