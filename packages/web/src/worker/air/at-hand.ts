import type { DrawnBox } from '@plugstead/drawings'
import type { AirBoxResult, AirEnd, AirSpell } from '@plugstead/engine/air'
import type { AirDesign } from '@plugstead/engine/job'
import type { Finding } from '@plugstead/engine/kernel'
import { type PlannedAir, plannedAir } from '@plugstead/engine/plan'
import type { AtWork } from '../at-work.ts'
import type { AirAsked, AirOf, AirPick, AirTrial } from './types.ts'

/** One box of the open job, its answer and its hours. */
export interface AirBoxAt {
  readonly drawn: DrawnBox
  readonly result: AirBoxResult
  readonly end: AirEnd
  /** What is built, or tried. */
  readonly air: AirDesign
  readonly hours: (pick: AirPick) => AirSpell
}

interface Tried {
  readonly pins: AirTrial
  readonly hand: PlannedAir['stands']
}

interface Kept {
  readonly air: PlannedAir | null
  tried: Tried | null
  readonly weeks: Map<string, AirSpell>
}

const kept = new WeakMap<AtWork, Map<string, Kept>>()

function keptOf(at: AtWork, box: string): Kept {
  const all = kept.get(at) ?? new Map<string, Kept>()
  kept.set(at, all)
  const had = all.get(box)
  if (had !== undefined) return had
  const { job, shop, weather } = at
  const { design, assessment } = at.found
  const air = plannedAir({ job, design, shop, assessment, weather, box })
  const one: Kept = { air, tried: null, weeks: new Map() }
  all.set(box, one)
  return one
}

export const boxesRun = (at: AtWork): readonly AirBoxResult[] => at.found.assessment.results.air?.boxes ?? []

const resultOf = (at: AtWork, box: string | null): AirBoxResult | undefined =>
  boxesRun(at).find((b) => b.box === box) ?? boxesRun(at)[0]

/** The box that is asked for, as it is planned or with what is tried; null where its year was not run. */
export function airAt(at: AtWork, asked: AirAsked): AirBoxAt | null {
  const stands = resultOf(at, asked.box)
  const drawn = at.drawn.find((d) => d.build.box === stands?.box)
  if (stands === undefined || drawn === undefined) return null
  const own = keptOf(at, stands.box)
  const hand = handOf(own, asked.of)
  if (hand === null) return null
  const tried = asked.of === 'tried'
  const result = tried ? hand.answer().result.boxes[0] : stands
  if (result === undefined) return null
  const end = asked.end ?? result.wetterEnd
  return {
    ...{ drawn, result, end, air: hand.air },
    hours: (pick) => {
      if (pick.kind === 'short') {
        const short = result.shorts.find((s) => s.run === pick.run)
        if (short !== undefined) return short.spell
      }
      const fromH = pick.kind === 'week' ? pick.fromH : 0
      const heat = result.ends[end].spells.some((s) => s.what === 'hottest hour' && s.fromH === fromH)
      const key = JSON.stringify([asked.of, tried ? own.tried?.pins : null, end, fromH, heat])
      const week = own.weeks.get(key) ?? hand.week({ end, fromH, heat })
      own.weeks.set(key, week)
      if (own.weeks.size > MOST_WEEKS) own.weeks.delete(own.weeks.keys().next().value as string)
      return week
    },
  }
}

const MOST_WEEKS = 60

const handOf = (own: Kept, of: AirOf): PlannedAir['stands'] | null =>
  of === 'tried' ? (own.tried?.hand ?? null) : (own.air?.stands ?? null)

export type TriedNow =
  | { readonly is: 'tried'; readonly box: string; readonly findings: readonly Finding[]; readonly result: AirBoxResult }
  | { readonly is: 'unread'; readonly wanted: readonly string[] }

/** Takes the box through its year with other choices; from then on it is what `tried` means. */
export function tryAir(at: AtWork, box: string | null, pins: AirTrial | null): TriedNow | null {
  const stands = resultOf(at, box)
  if (stands === undefined) return null
  const own = keptOf(at, stands.box)
  if (pins === null) {
    own.tried = null
    return null
  }
  const made = own.air?.tried(pins)
  if (made === undefined) return null
  if ('unread' in made) return { is: 'unread', wanted: made.unread.map((u) => u.wanted) }
  const { findings, result } = made.hand.answer()
  const [first] = result.boxes
  if (first === undefined) return null
  own.tried = { pins, hand: made.hand }
  return { is: 'tried', box: stands.box, findings, result: first }
}
