import { oneOfThirty, YEARS } from '../../weather/index.ts'
import { gearParts } from '../answer/gear.ts'
import { timesOf } from '../answer/join.ts'
import type { RemedyTable } from '../result.ts'
import { surroundingsOf, yearOf } from '../year/index.ts'
import type { Kind } from './kinds.ts'
import { failsIn, type RemedyTask, YEAR_STEPS_PER_HOUR } from './table.ts'
import { variantsOf } from './variants.ts'

/** What one made year came to, plain: it may come from another worker, in any order. */
export interface DesignYear {
  readonly year: number
  readonly fails: readonly Kind[]
}

/** In how many made years a design holds, and what fails in the others. */
export type YearsHeld = Pick<RemedyTable, 'box' | 'yearsCount'> & {
  readonly design: Pick<RemedyTable['design'], 'heldYearsCount' | 'failed'>
}

/** A design through made years, as pieces of work: a year each, at every end at which the design year is judged. */
export interface DesignYears {
  readonly years: readonly number[]
  readonly part: (year: number) => DesignYear
  readonly held: (parts: readonly DesignYear[]) => YearsHeld
}

/** The design of one box as it is, and nothing else: what the table of remedies says of it in its last line, without the table. */
export function designYearsOf(task: Omit<RemedyTask, 'prices'>): DesignYears {
  const { build, climate, job } = task
  const parts = gearParts(
    task.design.boxes.filter((b) => b.box === build.box),
    build.fit,
  )
  const modelOf = variantsOf(task)
  return {
    years: Array.from({ length: task.yearsCount }, (_, i) => (i % YEARS) + 1),
    part: (year) => {
      const hours = oneOfThirty(climate, year)
      const around = surroundingsOf(modelOf(build.air, 'middle'), hours, { stepsPerHour: YEAR_STEPS_PER_HOUR })
      const fails = failsIn({
        ...{ parts, fit: build.fit, times: timesOf(job, build.box), air: build.air, hours, n: year },
        runOf: (air, end) => {
          const model = modelOf(air, end)
          return { model, run: yearOf(model, around) }
        },
      })
      return { year, fails }
    },
    held: (all) => ({
      ...{ box: build.box, yearsCount: all.length },
      design: {
        heldYearsCount: all.filter((one) => one.fails.length === 0).length,
        failed: all
          .toSorted((a, b) => a.year - b.year)
          .flatMap(({ year, fails }) => (fails.length === 0 ? [] : [{ year, kinds: fails }])),
      },
    }),
  }
}

/** Year by year: told before each how many are done of how many. */
export function* designYearsStepwise(
  of: DesignYears,
): Generator<{ readonly doneCount: number; readonly ofCount: number }, YearsHeld> {
  const parts: DesignYear[] = []
  for (const year of of.years) {
    yield { doneCount: parts.length, ofCount: of.years.length }
    parts.push(of.part(year))
  }
  return of.held(parts)
}
