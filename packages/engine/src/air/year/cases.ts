import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import { yearOf } from './year-of.ts'

export const airYearCases: Record<string, (given: any) => Record<string, unknown>> = {
  'close-01': () => {
    const hours = sampleHours(24 * 30)
    const runs = [0, 0.05].map((foamM) => {
      const box = sampleBox(foamM)
      return yearOf(box, surroundingsOf(box, hours, { stepsPerHour: 4 }))
    })
    return {
      energy_residual: Math.max(...runs.map((run) => run.energyResidualFrac)),
      water_residual: Math.max(...runs.map((run) => run.waterResidualFrac)),
    }
  },
}
