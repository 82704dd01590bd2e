import type { Offer } from '../../job/index.ts'
import { type Chain, type ChainAsked, type ChainJob, chainOf } from './chain.ts'
import type { ChainAct } from './result.ts'
import { type Calendars, lastDay, type Scheduled, scheduled as scheduledOf } from './schedule.ts'
import type { Task } from './task.ts'

/** Most days first. An act that brings nothing is left out. */
export function actsOf(asked: {
  readonly ask: ChainAsked
  readonly chain: Chain
  readonly scheduled: Scheduled
  readonly critical: ReadonlySet<number>
  readonly calendars: Calendars
  readonly fromD: number
}): readonly ChainAct[] {
  const { chain, scheduled, calendars, fromD, ask } = asked
  const liveOf = (tasks: readonly Task[], end: 'switch-on' | 'interim-on'): number => {
    const { liveD, interimD } = scheduledOf(tasks, calendars, fromD, null)
    return end === 'switch-on' ? liveD : interimD!
  }
  const found: ChainAct[] = []
  const tried = (act: string, words: string, tasks: readonly Task[], end: 'switch-on' | 'interim-on' = 'switch-on'): void => {
    const liveD = liveOf(tasks, end)
    const savedDays = Math.floor(scheduled.liveD - liveD + 1e-6)
    const day = lastDay(liveD)
    if (savedDays >= 1 && day !== null) found.push({ act, words, earliest: day, savedDays })
  }
  const at = [...asked.critical].map((i) => chain.tasks[i]!)
  for (const name of new Set(at.map((t) => t.together ?? t.id))) {
    const same = (t: Task) => (t.together ?? t.id) === name
    const one = at.find(same)!
    if (one.doneD !== undefined || one.takes.low >= one.takes.likely) continue
    const words = one.together === undefined ? `${one.what} in its least time` : `${one.together} kept at its least`
    tried(
      `hasten ${name}`,
      words,
      chain.tasks.map((t) => (same(t) ? { ...t, takes: { ...t.takes, likely: t.takes.low } } : t)),
    )
  }
  const trades = new Set(at.flatMap((t) => /^shop days of the (\w+)$/.exec(t.days)?.[1] ?? []))
  for (const trade of trades) {
    const people = ask.crew.people?.[trade as 'welder'] ?? 1
    const share = people / (people + 1)
    tried(
      `one more ${trade}`,
      `one more ${trade} in the shop`,
      chain.tasks.map((t) =>
        t.days === `shop days of the ${trade}`
          ? { ...t, takes: { low: t.takes.low * share, likely: t.takes.likely * share, high: t.takes.high * share } }
          : t,
      ),
    )
  }
  for (const offer of others(ask.job, chain.offers).filter((o) => o !== chain.interim)) {
    const gap = offer.kind !== 'utility'
    const other = chainOf(gap ? { ...ask, interim: offer } : { ...ask, offer })
    const words = gap ? `${offer.what} (${offer.id}) for the gap` : `${offer.what} (${offer.id}) in its place`
    tried(gap ? `interim ${offer.id}` : `take ${offer.id}`, words, other.tasks, gap ? 'interim-on' : 'switch-on')
  }
  return found.toSorted((a, b) => b.savedDays - a.savedDays || (a.act < b.act ? -1 : 1))
}

const others = (job: ChainJob, taken: readonly Offer[]): readonly Offer[] =>
  job.offers.filter((o) => o.available && !taken.includes(o))
