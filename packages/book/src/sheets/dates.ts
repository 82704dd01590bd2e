import { datedChain } from '@plugstead/drawings'
import type { Block, Inline, Sheet } from '../content.ts'
import { type BookInput, chartWidth } from '../results.ts'
import { col, number, percent, right } from '../words.ts'

type Dates = BookInput['assessment']['results']['dates']
type Task = Dates['chain'][number]

/** The dated chain as a picture, then each task with what it may not pass. */
export function datesSheets(input: BookInput): readonly Sheet[] {
  const { assessment } = input
  const { dates } = assessment.results
  if (dates.chain.length === 0) return []
  const drawn = drawnRows(dates)
  const picture: readonly Block[] =
    drawn.length === 0
      ? []
      : [
          { k: 'drawing', scene: sceneOf(dates, drawn, chartWidth(input)) },
          { k: 'para', small: true, text: LEGEND },
        ]
  return [
    {
      ...{ part: 'dates', head: 'By when, and what must start today', scale: 'not to scale', key: true },
      sub: dates.needed === null ? 'the day needed is not told' : `needed by ${dates.needed}`,
      blocks: [{ k: 'facts', rows: factsOf(dates) }, ...picture],
    },
    {
      ...{
        part: 'dates',
        head: 'The chain, task by task',
        sub: 'days of each task’s own calendar',
        scale: 'not to scale',
        key: true,
      },
      blocks: [tableOf(dates), ...actsOf(dates), ...closedOf(dates)],
    },
  ]
}

/** Room for the rows beside facts and legend on one sheet. */
const ROOM_MM = 122

const LEGEND =
  'Hollow bar: a task. With slots: it drives the end, joined by wire. Thin line with ticks: days it can slip until the day needed is lost; upright stroke: its latest start. Dots: to the day by which nine of ten draws have it done; an arrow: beyond the sheet. Dotted bar: the interim. Hatched ground: closed times.'

/** Where the beginning is not known, tasks stand on their latest days. */
const drawnRows = (dates: Dates): readonly { readonly task: Task; readonly from: string; readonly to: string }[] =>
  dates.chain.flatMap((task) => {
    const [from, to] =
      dates.today === null ? [task.latestStart, task.latestFinish] : [task.start ?? task.done, task.finish ?? task.done]
    return from === null || to === null || task.done !== null ? [] : [{ task, from, to: [from, to].toSorted()[1]! }]
  })

function sceneOf(dates: Dates, drawn: ReturnType<typeof drawnRows>, widthMm: number): ReturnType<typeof datedChain> {
  const rows = drawn.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))
  const at = new Map(rows.map((r, i) => [r.task.id, i]))
  const first = rows[0]!.from
  return datedChain({
    widthMm,
    rowMm: Math.min(4.1, Math.max(2.9, ROOM_MM / rows.length)),
    today: dates.today ?? first,
    needed: dates.needed,
    closed: dates.closed,
    bars: rows.map(({ task, from, to }) => ({
      ...{ name: task.id, from, to, critical: task.critical, interim: task.group === 'interim' },
      ...{
        latestFrom: dates.today === null ? null : task.latestStart,
        latest: dates.today === null ? null : task.latestFinish,
        nineInTen: task.nineInTen,
      },
      after: task.after.flatMap((id) => at.get(id) ?? []),
    })),
  })
}

function factsOf(dates: Dates): readonly (readonly [Inline, Inline])[] {
  const { chance } = dates
  return [
    ['begins', dates.today ?? 'not told'],
    [
      'live, everything as likely',
      dates.earliest ?? (dates.leastDays === null ? 'not known' : `${dates.leastDays} days after the order at the soonest`),
    ],
    ...(dates.interim === null ? [] : [['interim', `${dates.interim}, from ${dates.interimFrom ?? 'no known day'}`] as const]),
    ['working days in hand', dates.marginDays === null ? 'not known' : number(Math.floor(dates.marginDays))],
    ['the order can wait until', dates.orderBy ?? 'not known, or too late'],
    ...(chance === null || chance.lateFrac === null
      ? []
      : [
          [
            'chance of being late',
            `${percent(chance.lateFrac)} of ${number(chance.drawsCount)} draws; by mean and variance along the driving chain, closed times that a slip would meet left out, ${chance.pertFrac === null ? 'not known' : percent(chance.pertFrac)}`,
          ] as const,
          ['half live by, nine of ten by', `${chance.halfBy ?? 'no day'}, ${chance.nineInTenBy ?? 'no day'}`] as const,
        ]),
    ['must start today, or should have', dates.mustStart.filter((id) => id !== 'order').join(', ') || 'nothing'],
    ['holidays of', dates.holidays.place],
  ]
}

const tableOf = (dates: Dates): Block => ({
  ...{ k: 'table', small: true },
  columns: [
    col('task'),
    col('what, and what its time rests on', -1),
    right('least'),
    right('likely'),
    right('most'),
    col('begins'),
    col('done'),
    col('latest start'),
    right('slack'),
  ],
  rows: dates.chain.map((t): Inline[] => [
    t.critical ? [['b', t.id]] : t.id,
    t.assumed.length > 0 ? [t.what, '; ', ['assumed', t.rests.place]] : `${t.what}; ${t.rests.place}`,
    ...[t.takes.low, t.takes.likely, t.takes.high].map((d) => number(Math.round(d * 10) / 10)),
    ...[t.start ?? '', t.done ?? t.finish ?? '', t.latestStart ?? ''],
    t.slackDays === null ? '' : number(Math.floor(t.slackDays)),
  ]),
})

const actsOf = (dates: Dates): readonly Block[] =>
  dates.acts.length === 0
    ? []
    : [
        { k: 'head', text: 'What one act brings' },
        {
          k: 'table',
          columns: [col('act', -1), right('days sooner'), col('live')],
          rows: dates.acts.map((a) => [a.words, number(a.savedDays), a.earliest]),
        },
      ]

const closedOf = (dates: Dates): readonly Block[] => {
  const until = [dates.earliest, dates.needed]
    .filter((d) => d !== null)
    .toSorted()
    .at(-1)
  const near = dates.closed.filter(
    (c) => c.to >= (dates.today ?? '') && (until === undefined || Number(c.from.slice(0, 4)) <= Number(until.slice(0, 4))),
  )
  return near.length === 0
    ? []
    : [
        { k: 'head', text: 'Closed times' },
        {
          k: 'table',
          columns: [col('what'), col('from'), col('to'), col('because', -1)],
          rows: near.map((c) => [c.what, c.from, c.to, c.said]),
        },
      ]
}
