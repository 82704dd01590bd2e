import type { Assessment } from '../assess/index.ts'
import type { Design, Pin } from '../job/index.ts'
import type { BoxYears, PlanResult } from '../plan/index.ts'
import type { Answered } from './answer.ts'

/** What a command wrote on the way: nothing, in the app. */
interface Written {
  readonly pins?: readonly Pin[]
  readonly files?: readonly string[]
  /** In how many made years each box holds; null: nobody asked. */
  readonly years?: readonly BoxYears[] | null
}

/** The answer of `plan`. The runners-up go without their designs: `result.design` is the one that is meant. */
export function planAnswer(found: PlanResult, { pins = [], files = [], years = null }: Written = {}): Answered {
  const { assessment } = found
  const { design, lost, sound, pinsInTheWay, tried, currency, changeList } = found
  return {
    ...asked(assessment),
    result: {
      design,
      chosen: brief(found.chosen),
      runnersUp: found.runnersUp.map(brief),
      lost,
      sound,
      pinsInTheWay,
      tried,
      currency,
      changeList,
      results: assessment.results,
      workings: assessment.workings,
      years,
      pins,
      files,
    },
  }
}

/** The answer of `assess`. */
export function assessAnswer(design: Design, assessment: Assessment, { files = [], years = null }: Written = {}): Answered {
  return { ...asked(assessment), result: { design, results: assessment.results, workings: assessment.workings, years, files } }
}

const asked = ({ findings, questions, assumed }: Assessment): Omit<Answered, 'result'> => ({ findings, questions, assumed })

const brief = ({ id, fails, costMoney, costIsFloor, ready }: PlanResult['chosen']) => ({
  id,
  fails,
  costMoney,
  costIsFloor,
  ready,
})
