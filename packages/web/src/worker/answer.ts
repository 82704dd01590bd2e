import type { AtWork } from './at-work.ts'
import type { JobAnswer } from './protocol.ts'
import { boxAnswers } from './things.ts'

export function jobAnswer(at: AtWork): JobAnswer {
  const { job, found } = at
  const { questions, findings, assumed } = found.assessment
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
    questions: questions.map(({ id, verdict }) => ({
      id,
      verdict,
      decides: findings.some((f) => f.question === id && f.decides !== undefined),
    })),
    findings,
    assumed,
    pins: job.pins,
    boxes: boxAnswers(at),
  }
}
