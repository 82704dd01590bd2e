import { put, type Source, type Step, source, step, type Working } from '../../kernel/index.ts'
import type { Chain } from './chain.ts'
import { figure } from './figures.ts'
import type { ChainTask, Chance } from './result.ts'
import type { Scheduled } from './schedule.ts'
import { triangularMoments } from './three-point.ts'

const tenth = (days: number): number => Math.round(days * 10) / 10

/** The chain that drives the end, task by task. */
export function chainWorking(asked: {
  readonly rows: readonly ChainTask[]
  readonly today: string
  readonly needed: string | null
  readonly marginDays: number | null
  readonly neededRests: Source
}): Working {
  const driving = asked.rows.filter((r) => r.critical)
  const steps: Step[] = driving.map((r) =>
    r.done !== null
      ? step(`EF ${r.id}`, 'the day it was done', [], r.done, '', r.rests)
      : step(
          `EF ${r.id}`,
          `ES + d on ${r.calendar}`,
          [put('ES', r.start ?? 'never'), put('d', tenth(r.takes.likely), 'd')],
          r.finish ?? 'never',
          '',
          r.rests,
        ),
  )
  return {
    id: 'job/dates-chain',
    title: 'The chain that drives the day it is live',
    steps,
    ...(asked.marginDays === null
      ? {}
      : {
          judgement: {
            demand: put('margin', tenth(asked.marginDays), 'working days'),
            relation: '≥' as const,
            limit: put(`needed by ${asked.needed}`, 0, 'working days'),
            tight: `${figure('tight margin')} working days`,
            rests: asked.neededRests,
          },
        }),
    notes: [
      `Begins ${asked.today}. A task begins on the first of its days after all it waits for; a day begun counts.`,
      `${asked.rows.length} tasks in all, ${driving.length} of them drive the end.`,
    ],
  }
}

/** Latest days, back from the day needed. */
export function latestWorking(rows: readonly ChainTask[], needed: string, rests: Source): Working {
  const open = rows.filter((r) => r.latestStart !== null && r.done === null)
  return {
    id: 'job/dates-latest',
    title: 'Latest start of each task, back from the day needed',
    steps: open.map((r) =>
      step(
        `LS ${r.id}`,
        `LF − d on ${r.calendar}`,
        [put('LF', r.latestFinish ?? ''), put('d', tenth(r.takes.likely), 'd'), put('ES', r.start ?? 'not known')],
        r.latestStart!,
        '',
        r.rests,
      ),
    ),
    notes: [`Needed by ${needed}: ${rests.place}. Everything as likely.`],
  }
}

/** Draws beside the normal approximation. */
export function chanceWorking(
  chance: Chance,
  needed: string,
  chain: Chain,
  scheduled: Scheduled,
  critical: ReadonlySet<number>,
): Working {
  const at = [...critical].sort((a, b) => a - b).filter((i) => scheduled.net[i]!.doneD === undefined)
  const open = at.filter((i) => scheduled.net[i]!.span.high > scheduled.net[i]!.span.low)
  const rests = source(
    `${chance.drawsCount} seeded draws (seed ${chance.seed}), each time from its triangle, parts of one told time together`,
    'computed',
  )
  return {
    id: 'job/dates-chance',
    title: 'Chance of being late',
    steps: [
      step(
        'P late',
        'late draws / draws',
        [put('draws', chance.drawsCount), put('needed by', needed)],
        chance.lateFrac ?? 'not known',
        '',
        rests,
      ),
      ...(chance.withoutInterimFrac !== chance.lateFrac
        ? [step('P late alone', 'the same without the interim', [], chance.withoutInterimFrac ?? 'not known', '', rests)]
        : []),
      step('half by', 'median of the draws', [], chance.halfBy ?? 'never', '', rests),
      step('nine in ten by', '90th percentile', [], chance.nineInTenBy ?? 'never', '', rests),
    ],
    judgement: {
      demand: put('P late', chance.lateFrac ?? 1),
      relation: '≤',
      limit: put('house', figure('chance fails')),
      tight: `${figure('chance tight') * 100} %`,
      rests: source('table dates-figures', 'common practice'),
    },
    ...(chance.pertFrac === null
      ? {}
      : {
          crossCheck: [
            ...open.slice(0, 12).map((i) => {
              const { span } = scheduled.net[i]!
              const m = triangularMoments(span)
              return step(
                `mean ${chain.tasks[i]!.id}`,
                '(a + m + b)/3; σ² = (a² + m² + b² − am − ab − mb)/18',
                [
                  put('a', tenth(span.low), 'd'),
                  put('m', tenth(span.likely), 'd'),
                  put('b', tenth(span.high), 'd'),
                  put('σ²', m.variance, 'd2'),
                ],
                m.mean,
                'd',
                source('triangular distribution', 'computed'),
              )
            }),
            step(
              'P late',
              '1 − Φ((needed − mean)/σ) along the driving chain, seven days for five working days',
              [],
              chance.pertFrac,
              '',
              source(
                'normal approximation: other chains, and closed times that a slip would meet, are left out, so it is too small where either is near',
                'computed',
              ),
            ),
          ],
        }),
  }
}
