import type { Assessment } from '@plugstead/engine/assess'
import { csv } from './csv.ts'

/** The dated chain, task by task. */
export function datesCsv(dates: Assessment['results']['dates']): string {
  return csv(
    [
      ...['task', 'what', 'group', 'who', 'after', 'days of', 'least days', 'likely days', 'most days', 'begins', 'done'],
      ...['latest start', 'latest done', 'slack days', 'drives the end', 'nine of ten by', 'must', 'rests on', 'provenance'],
    ],
    dates.chain.map((t) => [
      ...[t.id, t.what, t.group, t.who, t.after.join(' '), t.calendar, t.takes.low, t.takes.likely, t.takes.high],
      ...[t.start, t.finish, t.latestStart, t.latestFinish, t.slackDays, t.critical ? 'yes' : 'no', t.nineInTen, t.must],
      ...[t.rests.place, t.rests.provenance],
    ]),
  )
}
