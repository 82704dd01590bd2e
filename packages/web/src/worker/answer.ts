import type { AtWork, Laid } from './at-work.ts'
import type { JobAnswer, Judgement } from './protocol.ts'
import { boxAnswers } from './things.ts'

export function jobAnswer(at: AtWork): JobAnswer {
  const { job, found } = at
  return {
    title: job.title,
    invented: job.invented,
    head: {
      rules: job.rules.set,
      neededBy: job.needs.neededBy,
      orderDate: job.needs.orderDate,
      place: job.site.place,
      plugsCount: job.plugs.length,
      chosen: found.chosen.id,
      sound: found.sound,
      pinsInTheWay: found.pinsInTheWay,
    },
    ...judgementOf(at),
  }
}

/** What was found of a design. */
export function judgementOf(laid: Laid): Judgement {
  const { questions, findings, assumed } = laid.found.assessment
  return {
    questions: questions.map(({ id, verdict }) => ({
      id,
      verdict,
      decides: findings.some((f) => f.question === id && f.decides !== undefined),
    })),
    findings,
    assumed,
    pins: laid.job.pins,
    boxes: boxAnswers(laid),
  }
}
