import type { Assessment } from '@plugstead/engine/assess'
import { formatNumber } from '@plugstead/engine/kernel'
import { table } from './table.ts'
import { wrapped } from './wrap.ts'

type Dates = Assessment['results']['dates']

const days = (n: number): string => formatNumber(Math.round(n * 10) / 10, { digits: 3, shortest: true })

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** `10 Jul`, with its year where that is another. */
const dayText = (iso: string, year: string): string =>
  `${Number(iso.slice(8))} ${MONTHS[Number(iso.slice(5, 7)) - 1]}${iso.startsWith(year) ? '' : ` ${iso.slice(0, 4)}`}`

/** The dated chain: each task with its days, what it can slip, and what it may not. */
export function chainText(dates: Dates): string {
  if (dates.chain.length === 0) return ''
  const year = (dates.today ?? dates.orderBy ?? '').slice(0, 4)
  const day = (iso: string | null): string => (iso === null ? '' : dayText(iso, year))
  const rows = dates.chain.map((t) => [
    `${t.critical ? '▪ ' : '  '}${t.id}`,
    t.done === null ? `${days(t.takes.low)}–${days(t.takes.likely)}–${days(t.takes.high)}` : 'done',
    day(t.done ?? t.start),
    day(t.done ?? t.finish),
    day(t.latestStart),
    t.slackDays === null ? '' : days(t.slackDays),
    day(t.nineInTen),
  ])
  const head = [
    dates.today === null ? 'today: not known' : `from ${dates.today}`,
    dates.needed === null ? 'needed: not known' : `needed by ${dates.needed}`,
    dates.earliest === null ? null : `live ${dates.earliest}`,
    dates.orderBy === null ? null : `order by ${dates.orderBy}`,
  ].filter((one) => one !== null)
  return [
    wrapped(`The chain, ${head.join(', ')}. ▪ drives the end; days: least, likely, most of the task’s own calendar.`),
    table(
      [
        ...[{ head: 'task' }, { head: 'days', side: 'right' as const }, { head: 'begins' }, { head: 'done' }],
        ...[
          { head: 'latest start' },
          { head: 'slack', side: 'right' as const },
          { head: '9 in 10 by' },
          { head: 'what', wraps: true },
        ],
      ],
      rows,
    ),
    ...(dates.critical.length === 0
      ? []
      : [
          wrapped(
            `Drives the end: ${dates.chain
              .filter((t) => t.critical)
              .map((t) => t.what)
              .join(' → ')}.`,
          ),
        ]),
    ...(dates.closed.length === 0
      ? []
      : [
          [
            'Closed',
            ...closedIn(dates).map((c) => wrapped(`${c.what}: ${c.from} to ${c.to}, ${c.said}`, { indent: 2, hang: 4 })),
          ].join('\n'),
        ]),
    ...(dates.acts.length === 0
      ? []
      : [
          [
            'What one act brings',
            ...dates.acts.map((a) => wrapped(`${a.words}: ${a.savedDays} days, live ${a.earliest}`, { indent: 2, hang: 4 })),
          ].join('\n'),
        ]),
  ].join('\n\n')
}

/** Closed times from today to a little after live. */
function closedIn(dates: Dates): Dates['closed'] {
  const from = dates.today ?? dates.orderBy ?? ''
  const to =
    [dates.earliest, dates.needed]
      .filter((d) => d !== null)
      .toSorted()
      .at(-1) ?? '9999'
  return dates.closed.filter((c) => c.to >= from && c.from <= `${Number(to.slice(0, 4)) + 1}${to.slice(4)}`)
}
