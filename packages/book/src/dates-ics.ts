import type { Assessment } from '@plugstead/engine/assess'
import type { Job } from '@plugstead/engine/job'
import { plusDays } from '@plugstead/engine/kernel'

type Dates = Assessment['results']['dates']
type Task = Dates['chain'][number]

/**
 * The chain as iCalendar: one whole-day event a task, one for the day needed. Whole days have no time zone: they are the days of the place.
 * Nothing in it is of the clock: the stamp is the day the chain begins, and a task keeps its UID from one writing to the next.
 * @source RFC 5545: 3.1 lines and folding, 3.3.11 text, 3.6.1 event, 3.8.2.2 end (the day after the last); RFC 7986, 5.1 name. Provenance: memory
 */
export function datesIcs(job: Pick<Job, 'title'>, dates: Dates): string {
  const stamp = `${compact(dates.today ?? dates.orderBy ?? '1970-01-01')}T000000Z`
  const key = hashOf(job.title)
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Plugstead//dated chain//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `NAME;VALUE=TEXT:${escaped(`${job.title}: dates`)}`,
    ...dates.chain.flatMap((t) => taskLines(t, { stamp, key, latestOnly: dates.today === null })),
    ...(dates.needed === null
      ? []
      : event({
          ...{ uid: `needed-${key}@plugstead.invalid`, stamp, from: dates.needed, to: dates.needed },
          ...{ summary: `Needed: ${job.title}`, description: dates.neededFrom, categories: 'needed' },
        })),
    'END:VCALENDAR',
  ]
  return lines.map((l) => `${folded(l)}\r\n`).join('')
}

/** Where the beginning is not known, a task stands on the last days on which it may be done. */
function taskLines(t: Task, of: { stamp: string; key: string; latestOnly: boolean }): readonly string[] {
  const [from, to] = of.latestOnly ? [t.latestStart, t.latestFinish] : [t.start ?? t.done, t.finish ?? t.done]
  if (from === null || to === null) return []
  const description = [
    `Who: ${t.who}.`,
    `Takes ${round(t.takes.low)}, likely ${round(t.takes.likely)}, most ${round(t.takes.high)} days (${t.calendar}).`,
    ...(t.after.length === 0 ? [] : [`Waits for: ${t.after.join(', ')}.`]),
    ...(t.latestStart === null ? [] : [`Latest start: ${t.latestStart}.`]),
    ...(t.slackDays === null ? [] : [`Slack: ${round(t.slackDays)} days.`]),
    ...(t.nineInTen === null ? [] : [`Nine of ten by: ${t.nineInTen}.`]),
    `Rests on: ${t.rests.place} (${t.rests.provenance}).`,
    ...(t.critical ? ['Drives the day it is live.'] : []),
  ].join('\n')
  return event({
    ...{ uid: `${t.id}-${of.key}@plugstead.invalid`, stamp: of.stamp, from, to: [from, to].toSorted()[1]!, description },
    ...{ summary: of.latestOnly ? `Latest: ${t.what}` : t.what, categories: t.critical ? `${t.group},critical` : t.group },
  })
}

function event(e: {
  readonly uid: string
  readonly stamp: string
  readonly from: string
  readonly to: string
  readonly summary: string
  readonly description: string
  readonly categories: string
}): readonly string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${e.uid}`,
    `DTSTAMP:${e.stamp}`,
    `DTSTART;VALUE=DATE:${compact(e.from)}`,
    `DTEND;VALUE=DATE:${compact(plusDays(e.to, 1))}`,
    `SUMMARY:${escaped(e.summary)}`,
    `DESCRIPTION:${escaped(e.description)}`,
    `CATEGORIES:${e.categories}`,
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ]
}

const compact = (day: string): string => day.replaceAll('-', '')
const round = (days: number): string => String(Math.round(days * 10) / 10)

/** Backslash, semicolon, comma and line end have meanings of their own in a text; other control signs are not allowed. */
const escaped = (text: string): string =>
  text
    .replace(/\r\n?/g, '\n')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
    .replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, ' ')
    .replace(/\\/g, '\\\\')
    .replace(/;/g, '\\;')
    .replace(/,/g, '\\,')
    .replace(/\n/g, '\\n')

/** No line is longer than 75 octets; a sign of several octets is not cut. */
function folded(line: string): string {
  const out: string[] = []
  let now = ''
  let octets = 0
  for (const sign of line) {
    const size = new TextEncoder().encode(sign).length
    if (octets + size > (out.length === 0 ? 75 : 74)) {
      out.push(now)
      now = ''
      octets = 0
    }
    now += sign
    octets += size
  }
  return [...out, now].join('\r\n ')
}

/** FNV-1a over the title, so that tasks of two jobs differ and those of one stay. */
function hashOf(text: string): string {
  let hash = 0x811c9dc5
  for (const octet of new TextEncoder().encode(text)) hash = Math.imul(hash ^ octet, 0x01000193) >>> 0
  return hash.toString(16).padStart(8, '0')
}
