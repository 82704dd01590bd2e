import type { BoxBody } from '../../box/index.ts'
import type { AirDesign, BoxBuild, Pin } from '../../job/index.ts'
import { Fault, noMemory } from '../../kernel/index.ts'
import type { AirAnswer, AirEnd, AirSpell } from '../result.ts'
import { answerRuns } from './answer.ts'
import { spellOf } from './drawn.ts'
import { DAY_H } from './hours.ts'
import { type AirInputs, boxOf, type Run, runner, runsWith } from './join.ts'
import { withoutFog } from './lead-in.ts'
import { heatRun } from './runs.ts'
import { type AirWeather, weatherFor } from './weather.ts'

const WEEK_H = 7 * DAY_H

export interface WeekAsked {
  readonly end: AirEnd
  /** First hour of it; kept within the run. */
  readonly fromH: number
  /** Of the run in which heat is judged, where that is another one. */
  readonly heat: boolean
}

/** A box with its year at hand: any week of it in every figure, and the year again with other measures. */
export interface AirAtHand {
  readonly box: string
  /** Design that is run: of a box that stands, with what it was built with. */
  readonly air: AirDesign
  readonly hoursCount: number
  /** What the box answers. Worked out when it is asked for first. */
  readonly answer: () => AirAnswer
  readonly week: (asked: WeekAsked) => AirSpell
  /** The same box built otherwise, as these pins ask, in the same surroundings. */
  readonly built: (change: Pick<BoxBuild, 'air' | 'skin'> & { readonly pins: readonly Pin[] }) => AirAtHand
}

/**
 * One box of a job, for a person who looks at it week by week and tries one thing after another. Surroundings are worked out once. Null: it
 * lacks what a year needs, and the answer of the job says what.
 */
export function airAtHand(inputs: AirInputs, box: string): AirAtHand | null {
  const build = inputs.design.builds.find((b) => b.box === box)
  const body = inputs.bodies[box]
  const found = weatherFor(inputs.job, inputs.weather)
  if (build === undefined || body === undefined || 'lacks' in found) return null
  const made = boxOf(inputs, build, body)
  if (made.notes.some((n) => n.kind === 'missing')) return null
  const model = made.modelAt('damp')
  const { weather } = found
  return handOf({ inputs, body, weather, run: runner(box, model, noMemory) }, build)
}

interface Bench {
  readonly inputs: AirInputs
  readonly body: BoxBody
  readonly weather: AirWeather
  /** One for every way the box is built: what stands around it is worked out once. */
  readonly run: Run
}

function handOf(bench: Bench, build: BoxBuild): AirAtHand {
  const { inputs, weather } = bench
  const made = boxOf(inputs, build, bench.body)
  const runs = once(() => runsWith(made, weather, bench.run))
  return {
    box: build.box,
    air: made.box.air,
    get hoursCount() {
      return runs().weather.hoursCount
    },
    answer: once(() =>
      answerRuns({
        yard: inputs.job.yard,
        boxes: [made.box],
        runsOf: () => ({ runs: runs() }),
      }),
    ),
    week: ({ end, fromH, heat }) => {
      if (!Number.isInteger(fromH)) throw new Fault('air/week-range', fromH)
      const of = runs().ends[end]
      const { model, year } = heat ? heatRun(of) : of
      const { weather: hours } = runs()
      const all = hours.hoursCount
      const from = Math.max(0, Math.min(fromH, all - WEEK_H))
      const toH = Math.min(all, from + WEEK_H)
      return spellOf({ what: 'week', model, run: withoutFog(year), weather: hours, fromH: from, toH })
    },
    built: ({ pins, ...change }) =>
      handOf({ ...bench, inputs: { ...inputs, job: { ...inputs.job, pins } } }, { ...build, ...change }),
  }
}

function once<T>(of: () => T): () => T {
  let kept: { readonly is: T } | null = null
  return () => {
    if (kept === null) kept = { is: of() }
    return kept.is
  }
}
