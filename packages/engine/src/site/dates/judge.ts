import { dayNumberD, type Finding, isoDay, judgeEnds, put, type Verdict, weakest } from '../../kernel/index.ts'
import type { Chain } from './chain.ts'
import type { Conditions } from './conditions.ts'
import { figure } from './figures.ts'
import type { ChainTask, DatesResult } from './result.ts'
import { type Calendars, lastDay, officeDays, type Scheduled, stopsOf } from './schedule.ts'
import { nextD } from './season.ts'

export const found = (of: Partial<Finding> & Pick<Finding, 'code' | 'verdict' | 'said'>): Finding => ({
  ...{ question: 'dates', subject: 'job', basis: 'physics', provenance: 'computed', assumed: [], workings: [], mends: [] },
  ...of,
})

const shownDays = (days: number): string => {
  const n = Math.floor(Math.abs(days) + 1e-6)
  return `${n} working day${n === 1 ? '' : 's'}`
}

/** Live against needed: late, by which source, and how much is left. */
export function readyVerdict(marginDays: number, interimMarginDays: number | null): Verdict {
  if (marginDays < -1e-6) return interimMarginDays !== null && interimMarginDays >= -1e-6 ? 'tight' : 'fails'
  return marginDays < figure('tight margin') ? 'tight' : 'holds'
}

export interface Judged {
  readonly result: DatesResult
  readonly chain: Chain
  readonly conditions: Conditions
  readonly scheduled: Scheduled
  readonly calendars: Calendars
  /** Verdict with the ground frozen as little as may be; null where its depth was told. */
  readonly other: Verdict | null
  readonly interimMarginDays: number | null
}

export function readyFinding(of: Judged): Finding {
  const { result, chain } = of
  const critical = result.chain.filter((t) => t.critical)
  const provenance = weakest(...critical.map((t) => t.rests.provenance))
  const assumed = [...new Set(critical.flatMap((t) => t.assumed))]
  if (result.earliest === null || result.marginDays === null || result.needed === null)
    return found({
      ...{ code: 'dates/ready', provenance, assumed, workings: ['job/dates-chain'] },
      verdict: 'fails',
      said: `${critical.find((t) => t.finish === null)?.what ?? 'The chain'} finds no day on which it can be done in five years.`,
    })
  const here = readyVerdict(result.marginDays, of.interimMarginDays)
  const both = of.other === null ? here : judgeEnds(here, of.other)
  const late = result.marginDays < -1e-6
  const verdict: Verdict = chain.lacks.length > 0 && (both === 'holds' || both === 'tight') ? 'unknown' : both
  const interim = result.interimFrom === null ? '' : ` ${result.interim} feeds from ${result.interimFrom}.`
  const said = late
    ? `Live on ${result.earliest}, ${shownDays(result.marginDays)} after ${result.needed}, when it is needed.${interim}`
    : `Live on ${result.earliest}, ${shownDays(result.marginDays)} before ${result.needed}, when it is needed.`
  return found({
    ...{ code: 'dates/ready', verdict, provenance, assumed },
    said: `${said}${both !== here ? ' Where the frost goes less deep it is otherwise: nobody said its depth.' : ''}`,
    demand: put('margin', result.marginDays, 'working days'),
    limit: put('needed', 0, 'working days'),
    workings: ['job/dates-chain', 'job/dates-latest'],
    mends: here === 'holds' ? [] : interimMends(result),
    decides: 'utility, authority and dealers, each for its own time',
  })
}

/** Sources that would feed the gap sooner, soonest first. */
const interimMends = (result: DatesResult): Finding['mends'] =>
  result.acts
    .filter((a) => a.act.startsWith('interim '))
    .map((a) => ({ path: 'supply.interim', value: a.act.slice('interim '.length), words: `${a.words}, from ${a.earliest}` }))

export function chanceFinding({ result, chain }: Judged): readonly Finding[] {
  const chance = result.chance
  if (chance === null || chance.lateFrac === null) return []
  const p = chance.lateFrac
  // A spread that was assumed warns; only one that somebody told fails.
  const assumed = [...new Set(result.chain.filter((t) => t.critical).flatMap((t) => t.assumed))]
  const spread = result.chain.some((t) => t.critical && t.spread === 'assumed')
  const verdict: Verdict = p > figure('chance fails') && !spread ? 'fails' : p > figure('chance tight') ? 'tight' : 'holds'
  const alone =
    chance.withoutInterimFrac !== null && chance.withoutInterimFrac !== p
      ? `; ${percent(chance.withoutInterimFrac)} without the interim`
      : ''
  return [
    found({
      ...{ code: 'dates/chance', basis: 'house', workings: ['job/dates-chance'] },
      verdict: verdict !== 'fails' && chain.lacks.length > 0 ? 'unknown' : verdict,
      provenance: weakest(...result.chain.map((t) => t.rests.provenance)),
      said: `In ${percent(p)} of ${chance.drawsCount} draws nothing is live by ${result.needed}${alone}. Half are live by ${chance.halfBy ?? 'no day'}, nine of ten by ${chance.nineInTenBy ?? 'no day'}.${spread ? ' How far a time may slip is assumed where nobody told it.' : ''}`,
      assumed,
      mends: verdict === 'holds' ? [] : interimMends(result),
      demand: put('P late', p),
      limit: put('house', figure('chance fails')),
    }),
  ]
}

const percent = (frac: number): string => `${(frac * 100).toFixed(frac > 0 && frac < 0.1 ? 1 : 0)} %`

export function startFinding({ result }: Judged): readonly Finding[] {
  if (result.today === null || result.needed === null) return []
  const row = (t: ChainTask): string => `${t.what} (${t.id}) by ${t.latestStart}`
  const of = (must: ChainTask['must']) => result.chain.filter((t) => t.must === must && t.id !== 'order')
  const [past, today, soon] = [of('past'), of('today'), of('soon')]
  const can = result.chain.filter(
    (t) => t.start !== null && t.done === null && t.start <= isoDay(dayNumberD(result.today!) + 1) && t.must !== 'done',
  )
  const parts = [
    ...(past.length > 0 ? [`should have begun: ${past.map(row).join('; ')}`] : []),
    ...(today.length > 0 ? [`must begin today: ${today.map(row).join('; ')}`] : []),
    ...(soon.length > 0 ? [`within ${figure('tight margin')} working days: ${soon.map(row).join('; ')}`] : []),
  ]
  return [
    found({
      code: 'dates/start',
      verdict: past.length + today.length + soon.length > 0 ? 'tight' : 'holds',
      provenance: weakest(...[...past, ...today, ...soon].map((t) => t.rests.provenance)),
      said: `Today is ${result.today}. ${parts.length === 0 ? 'Nothing has to begin today' : capital(parts.join('. '))}. Can begin now: ${can.map((t) => t.id).join(', ')}. The order can wait until ${result.orderBy ?? 'no day: it is late'}.`,
      workings: ['job/dates-latest'],
    }),
  ]
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** What a closed time does to the chain: for each kind the task that has least left before it, or waits for its end. */
export function closedFindings({ result, calendars, scheduled, chain }: Judged): readonly Finding[] {
  const kinds = [...new Set(result.closed.map((c) => c.what))]
  return kinds.flatMap((kind) => {
    let worst: {
      readonly leftDays: number
      readonly said: string
      readonly waits: boolean
      readonly rests: Finding['provenance']
    } | null = null
    for (const [i, task] of chain.tasks.entries()) {
      if (!stopsOf(task.days).includes(kind) || task.doneD !== undefined || task.group === 'interim') continue
      const { finishD } = scheduled.passed[i]!
      const readyD = Math.max(...scheduled.net[i]!.after.map((p) => scheduled.passed[p]!.finishD))
      if (!Number.isFinite(readyD)) continue
      const spans = result.closed
        .filter((c) => c.what === kind)
        .toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))
      const hit = spans.find((c) => dayNumberD(c.to) + 1 > readyD && dayNumberD(c.from) < finishD)
      const next = spans.find((c) => dayNumberD(c.from) >= finishD - 1e-6)
      const one =
        hit !== undefined
          ? {
              ...{
                leftDays: -officeDays(calendars, Math.max(readyD, dayNumberD(hit.from)), dayNumberD(hit.to) + 1),
                waits: true,
              },
              ...{ rests: hit.rests.provenance },
              said: `${capital(task.what)} (${task.id}) meets ${KIND_WORDS[kind]} from ${hit.from} to ${hit.to} (${hit.said}) and is done on ${lastDay(finishD) ?? 'no day'}.`,
            }
          : next !== undefined
            ? {
                ...{
                  leftDays: officeDays(calendars, finishD, dayNumberD(next.from)),
                  waits: false,
                  rests: next.rests.provenance,
                },
                said: `${capital(task.what)} (${task.id}) is done on ${lastDay(finishD)}, ${shownDays(officeDays(calendars, finishD, dayNumberD(next.from)))} before ${KIND_WORDS[kind]} from ${next.from} (${next.said}).`,
              }
            : null
      if (one !== null && (worst === null || one.leftDays < worst.leftDays)) worst = one
    }
    if (worst === null) return []
    const late = result.marginDays !== null && result.marginDays < -1e-6
    const verdict: Verdict = worst.waits
      ? late
        ? 'fails'
        : 'tight'
      : worst.leftDays < figure('tight margin')
        ? 'tight'
        : 'holds'
    return [
      found({
        ...{ code: 'dates/closed', subject: kind, verdict, provenance: worst.rests, said: worst.said },
        demand: put('left', worst.leftDays, 'working days'),
        limit: put('none', 0, 'working days'),
        workings: ['job/dates-chain'],
      }),
    ]
  })
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  road: 'the road shut',
  digging: 'no digging',
  pads: 'no setting of pads',
  site: 'no work on site',
  shop: 'the shop shut',
  offices: 'offices shut',
}

export function deadlineFindings({ conditions, chain, scheduled, calendars, result }: Judged): readonly Finding[] {
  return conditions.deadlines.map((d) => {
    const ids = d.what === 'shop' ? chain.shopEnds : ['connect']
    const places = ids.map((one) => chain.tasks.findIndex((t) => t.id === one))
    const at = places.reduce((a, b) => (scheduled.passed[b]!.finishD > scheduled.passed[a]!.finishD ? b : a))
    const { id } = chain.tasks[at]!
    const finishD = scheduled.passed[at]!.finishD
    const byD = nextD(d.by, result.today === null ? dayNumberD(result.needed ?? '2000-01-01') : dayNumberD(result.today)) + 1
    const leftDays = officeDays(calendars, finishD, byD)
    // A day that comes round each year is kept by what stands before it, and by what comes after it at once.
    const verdict: Verdict =
      !Number.isFinite(finishD) || result.today === null
        ? 'unknown'
        : finishD <= byD + 1e-6
          ? leftDays < figure('tight margin')
            ? 'tight'
            : 'holds'
          : d.what === 'tied down'
            ? 'tight'
            : 'fails'
    return found({
      ...{ code: 'dates/deadline', verdict, provenance: 'told', subject: id, workings: ['job/dates-chain'] },
      said: `“${d.said}” — ${chain.tasks[at]!.what} is done on ${lastDay(finishD) ?? 'no day'}; the day is ${isoDay(byD - 1)}.${verdict === 'tight' && d.what === 'tied down' ? ' Tied down on the day it is set.' : ''}`,
      demand: put('left', leftDays, 'working days'),
      limit: put('none', 0, 'working days'),
    })
  })
}

/** What waits for its crew, longest first, and what that costs the end. */
export function crewFinding({ result }: Judged): readonly Finding[] {
  const waiting = result.chain
    .filter((t) => t.crew !== null && t.crew.waitsDays >= 0.1)
    .toSorted((a, b) => b.crew!.waitsDays - a.crew!.waitsDays || (a.id < b.id ? -1 : 1))
  if (waiting.length === 0) return []
  const of = (t: ChainTask): string =>
    `${t.id} waits ${t.crew!.waitsDays} working days for the ${t.crew!.trade}, who is at ${t.crew!.behind.join(', ')}`
  const later =
    result.earliestAlone === null || result.earliest === null
      ? ''
      : result.earliestAlone === result.earliest
        ? ' The end does not move by it.'
        : ` With crews without end it would be live on ${result.earliestAlone}, not ${result.earliest}.`
  return [
    found({
      ...{ code: 'dates/crew', verdict: 'holds', provenance: 'computed', basis: 'house', workings: ['job/dates-chain'] },
      said: `No crew is at two things at once: ${waiting.slice(0, 4).map(of).join('; ')}${waiting.length > 4 ? ` and ${waiting.length - 4} more` : ''}.${later}`,
      assumed: [...new Set(waiting.flatMap((t) => t.assumed))],
    }),
  ]
}

export function actFinding({ result }: Judged): readonly Finding[] {
  const [best] = result.acts
  if (best === undefined) return []
  return [
    found({
      ...{ code: 'dates/act', verdict: 'holds', provenance: 'computed', basis: 'house' },
      said: `What one act brings: ${result.acts
        .slice(0, 4)
        .map((a) => `${a.words}, ${a.savedDays} days sooner (${a.earliest})`)
        .join('; ')}.`,
    }),
  ]
}

export const lackFindings = ({ chain, conditions }: Pick<Judged, 'chain' | 'conditions'>): readonly Finding[] => [
  ...chain.lacks.map((l) =>
    found({ code: 'dates/missing', subject: l.path, verdict: 'unknown', provenance: 'told', said: l.said }),
  ),
  ...conditions.unread.map((u) =>
    found({
      ...{ code: 'dates/unread', subject: u.path, verdict: 'unknown', provenance: 'told' },
      said: `“${u.said}” (${u.path}) says when something rests in words that are not read: write it under facts.closed, with what, from and to.`,
    }),
  ),
]
