import {
  boxModelOf,
  boxUnknowns,
  type EndName,
  foundBy,
  type LoggerLog,
  MODEL_ENDS,
  type ModelMade,
  surroundingsOf,
  surveyFound,
  surveyLines,
  type Trial,
  trialOf,
  yearOf,
} from '../air/index.ts'
import { type Assessment, rulesOf, type Shop } from '../assess/index.ts'
import type { Design, Job } from '../job/index.ts'
import type { Result } from '../kernel/index.ts'
import type { WeatherHours } from '../weather/index.ts'
import { bodyOf } from './build.ts'

/** Quarter-hour steps: what a box of bare steel needs. */
export const LOG_STEPS_PER_HOUR = 4

/** One box of a judged design, at one end of what nobody told. */
export interface JudgedBox {
  readonly job: Job
  readonly shop: Shop
  readonly design: Design
  readonly results: Pick<Assessment['results'], 'reach' | 'haul'>
  readonly box: string
  readonly end: EndName
}

/** The box as it goes through its hours; null: it is not built in this design. */
export function modelOfJudged({ job, shop, design, results, box, end }: JudgedBox): ModelMade | null {
  const build = design.builds.find((one) => one.box === box)
  if (build === undefined) return null
  return boxModelOf({
    ...{ job, design, build, rules: rulesOf(job, shop), end: MODEL_ENDS[end], body: bodyOf(job, box) },
    ...{ reach: results.reach.boxes, weighed: results.haul.boxes.find((one) => one.box === box)?.items ?? null },
  })
}

/** What each unknown of a box is taken to be before a log tells of it: at this end, and the least and the most of all ends. */
export function unknownsBefore(
  of: JudgedBox,
): readonly { readonly id: string; readonly value: number; readonly low: number; readonly high: number }[] {
  const startsAt = (end: EndName) => {
    const made = modelOfJudged({ ...of, end })
    return made === null ? [] : boxUnknowns(made.model)
  }
  const all = (Object.keys(MODEL_ENDS) as EndName[]).map(startsAt)
  return startsAt(of.end).map(({ id, start }, k) => {
    const values = all.map((one) => one[k]?.start.value ?? start.value)
    return { id, value: start.value, low: Math.min(...values), high: Math.max(...values) }
  })
}

/** A log beside the run of a box, and what of it can be kept with the job. */
export interface BesideLog {
  readonly trial: Trial
  /** As they would stand in the job. Empty: nothing was fitted. */
  readonly lines: readonly string[]
  /** What was told, by the names of the box’s survey. */
  readonly found: ReturnType<typeof surveyFound>
}

/** `run`: of these hours, where it was made before; `name`: of the list, for whoever reads the facts later. */
export function besideLog(of: {
  readonly model: ModelMade['model']
  readonly hours: WeatherHours
  readonly run?: ReturnType<typeof yearOf>
  readonly log: LoggerLog
  readonly box: string
  readonly name: string
  readonly watch?: (doneCount: number, ofCount: number) => void
}): Result<BesideLog> {
  const { model, hours, log, box, name, watch } = of
  const stepsPerHour = LOG_STEPS_PER_HOUR
  const run = of.run ?? yearOf(model, surroundingsOf(model, hours, { stepsPerHour }))
  const read = trialOf({ model, hours, run, stepsPerHour }, log, watch)
  if (!read.ok) return read
  const trial = read.value
  if (trial.fit === null) return { ok: true, value: { trial, lines: [], found: {} } }
  const by = foundBy(name, trial.paired, hours)
  const missed = trial.fit.missed.map(({ sensor }) => sensor.name)
  const lines = surveyLines(trial.fit.told, { box, ...by, missed })
  return { ok: true, value: { trial, lines, found: surveyFound(trial.fit.told, by) } }
}
